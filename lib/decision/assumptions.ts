import { type AlloyCard, findTemper } from '../alloy';
import type { Sourced } from '../quantity';
import { type Assumption, probeAssumptions } from '../strength';
import type { ChannelCase } from './judgeChannel';

/** Every assumption behind a verdict, each once: alloy and temper values, the probe, the rules of combination. */
export function assumptionsOf(cases: readonly ChannelCase[]): Assumption[] {
  const all = [
    ...cases.flatMap(({ card, temper, measuredYieldMPa }) =>
      alloyAssumptions(card, temper, measuredYieldMPa),
    ),
    ...cases.flatMap(({ probe }) => probeAssumptions(probe)),
    {
      name: 'How doubts combine',
      value: 'independent effects on the strength add as squares on either side',
      source: 'JCGM 100:2008, 5.1.2, with bounds in the place of standard uncertainties',
      known: 'derived' as const,
    },
  ];
  const seen = new Set<string>();
  return all.filter((one) => {
    const key = JSON.stringify(one);
    return !seen.has(key) && seen.add(key);
  });
}

function alloyAssumptions(card: AlloyCard, temper: string, measuredYieldMPa?: number): Assumption[] {
  const { name, entry } = findTemper(card, temper);
  const of = `${card.designation}-${name}`;
  const { activationEnergyJPerMol, curves, timeFactor } = card.overageing;
  const curve = curves[name];
  return [
    measuredYieldMPa === undefined
      ? sourced(`Yield of ${of} before welding`, entry.yieldMPa)
      : {
          name: `Yield of ${of} before welding`,
          value: `${measuredYieldMPa} MPa`,
          source: 'measured on this part, as given',
          known: 'seen',
        },
    sourced('Activation energy of over-ageing', activationEnergyJPerMol),
    ...(curve
      ? [
          sourced(`Coarsening time of ${of} at ${card.overageing.referenceC} °C`, curve.softenTimeS),
          sourced(`Hardening ${of} still gains before its peak`, curve.gainFraction),
          sourced(`Yield left when all hardening of ${of} is gone`, curve.floorYieldMPa),
        ]
      : []),
    sourced(`How much faster ${card.designation} over-ages than the published precipitate model`, timeFactor),
    sourced(
      `Time to dissolve everything at ${card.dissolution.referenceC.value} °C`,
      card.dissolution.referenceTimeS,
    ),
  ];
}

function sourced(name: string, { value, low, high, unit, source, known }: Sourced): Assumption {
  const number = (x: number): string => (Math.abs(x) >= 1e4 ? x.toLocaleString('en-US') : String(x));
  const band = low === high ? '' : ` (${number(low)} to ${number(high)})`;
  return { name, value: `${number(value)}${unit === '1' ? '' : ` ${unit}`}${band}`, source, known };
}
