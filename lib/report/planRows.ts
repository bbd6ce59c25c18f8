import { VERDICT_IN_WORDS } from '../decision';
import type { PlanComparison, PlanResult } from '../planning';
import { formatChance, formatDuration, formatKept, formatPercent, formatTemp } from '../quantity';
import type { TableRow } from './table';

/** One row per plan: the part's chance and word, what each metal keeps, how warm the part gets, how long it takes. */
export function planRows({ plans, better }: PlanComparison): TableRow[] {
  return plans.map((plan, i) => ({
    Plan: plan.name,
    Verdict: VERDICT_IN_WORDS[plan.verdict],
    'Chance it is enough': formatChance(plan.chanceKept),
    ...Object.fromEntries(
      plan.metals.flatMap((metal) => [
        [`${metal.alloy} keeps`, formatKept(metal.yieldKeptFraction)],
        [`${metal.alloy} yield`, yieldText(metal.yieldMPa)],
        [`${metal.alloy} soft up to`, softReach(metal)],
      ]),
    ),
    'Part as a body': formatTemp(plan.bodyC.nominal),
    'Last pass from': formatTemp(plan.interpassC.at(-1)!.nominal),
    Takes: formatDuration(plan.clockTimeS.nominal),
    ...(i === 0
      ? { 'Keeps more than the first': '' }
      : { 'Keeps more than the first': formatChance(better[i]![0]!) }),
  }));
}

/** One row per unknown: its share of what is not known of the first metal, by plan. */
export function matterRows({ plans }: PlanComparison): TableRow[] {
  const names = [...new Set(plans.flatMap(({ metals }) => metals[0]!.matters.map(({ of }) => of)))];
  return names.map((of) => ({
    'What matters': of,
    ...Object.fromEntries(
      plans.map(({ name, metals }) => {
        const share = metals[0]!.matters.find((matter) => matter.of === of)?.share;
        return [name, share === undefined ? '' : formatPercent(share)];
      }),
    ),
  }));
}

const yieldText = ({ nominal, low, high }: PlanResult['bodyC']): string =>
  `${nominal.toFixed(0)} MPa (${low.toFixed(0)}–${high.toFixed(0)})`;

const softReach = ({ softZone: zone }: PlanResult['metals'][number]): string =>
  zone
    ? `${zone.mm.nominal.toFixed(0)} mm${zone.beyond ? ', may be more' : `, at most ${zone.mm.high.toFixed(0)} mm`}`
    : 'not told';
