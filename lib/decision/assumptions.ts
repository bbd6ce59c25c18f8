import { type AlloyCard, startTemper } from '../alloy';
import { type Probe, USUAL_WIRE } from '../exposure';
import { formatPercent, formatTemp, type Sourced } from '../quantity';
import type { Assumption } from '../strength';
import { attachmentError } from '../thermocouple';
import type { PlaceToJudge } from './judgeChannel';
import { WORD_RULE } from './wording';

/** Every assumption behind a verdict, each once: start of the metal, the probe, the rules of combination. */
export function assumptionsOf(places: readonly PlaceToJudge[]): Assumption[] {
  const all = [
    ...places.flatMap(({ card, temper, measuredYieldMPa }) => [startOf(card, temper, measuredYieldMPa)]),
    ...places.flatMap(({ record }) => (record ? probeAssumptions(record.probe) : [])),
    {
      name: 'How doubts combine',
      value:
        'draws: each is one plausible truth behind the record, run on one plausible metal; low and high are 5 and 95 % of them',
      source: 'JCGM 101:2008, propagation of distributions',
      known: 'derived' as const,
    },
    {
      name: 'How the word follows',
      value: WORD_RULE,
      source:
        'guarded acceptance with a risk of 5 %, fixed before measuring: JCGM 106:2012, clause 8.3; the default of ISO 14253-1:2017',
      known: 'memory' as const,
    },
  ];
  const seen = new Set<string>();
  return all.filter((one) => {
    const key = JSON.stringify(one);
    return !seen.has(key) && seen.add(key);
  });
}

function startOf(card: AlloyCard, temper: string, measuredYieldMPa?: number): Assumption {
  const { name, entry } = startTemper(card, temper);
  const of = `Yield of ${card.designation}-${name} before the heat`;
  if (measuredYieldMPa === undefined) return sourced(of, entry.yieldMPa);
  return {
    name: of,
    value: `${measuredYieldMPa} MPa`,
    source: 'measured on this part, as given',
    known: 'seen',
  };
}

/** What is assumed of a probe. */
function probeAssumptions({
  thermocouple: wire = USUAL_WIRE,
  attachment = 'not stated',
  ambientC,
}: Probe): Assumption[] {
  const { value, low, high, source, known } = attachmentError(attachment);
  return [
    {
      name: 'Thermocouple wire',
      value: `type ${wire.type}, ${wire.standard} class ${wire.class}, new wire`,
      source: `${wire.standard}; type K may drift up in use, which only widens the band upwards`,
      known: 'seen',
    },
    {
      name: `Probe fixing "${typeof attachment === 'string' ? attachment : 'as given by the shop'}" reads low by`,
      value: `${formatPercent(value, 1)} (${formatPercent(low, 1)} to ${formatPercent(high, 1)}) of the rise above the air`,
      source,
      known,
    },
    {
      name: 'Air round the part',
      value: formatTemp(ambientC),
      source: 'given, or the coldest early reading; 20 °C where that is too warm for air',
      known: 'derived',
    },
  ];
}

function sourced(name: string, { value, low, high, unit, source, known }: Sourced): Assumption {
  const number = (x: number): string => (Math.abs(x) >= 1e4 ? x.toLocaleString('en-US') : String(x));
  const band = low === high ? '' : ` (${number(low)} to ${number(high)})`;
  return { name, value: `${number(value)}${unit === '1' ? '' : ` ${unit}`}${band}`, source, known };
}
