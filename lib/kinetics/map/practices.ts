import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type AlloyCard, loadAlloy } from '../../alloy';
import type { HowKnown } from '../../quantity';

/** A heating that the trade does on purpose, to find on a strength map. */
export interface Practice {
  readonly label: string;
  readonly tempC: number;
  /** Shortest and longest, s. */
  readonly timeS: readonly [number, number];
  readonly source: string;
  readonly known: HowKnown;
}

/** Several heatings that practice treats as one limit: the reheat limits of hot forming. */
export interface PracticeLine {
  readonly label: string;
  readonly points: readonly { readonly tempC: number; readonly timeS: number }[];
  readonly source: string;
  readonly known: HowKnown;
}

/** Ready for a map figure: limits as lines across it, single practices, and those that belong together. */
export interface Practices {
  readonly limits: readonly { readonly name: string; readonly limitC: number }[];
  readonly points: readonly Practice[];
  readonly lines: readonly PracticeLine[];
}

/** The practices as they are kept, with those of single alloys by designation. */
interface PracticeTable {
  readonly everyAlloy: readonly Practice[];
  readonly byAlloy: Readonly<Record<string, Pick<Practices, 'points' | 'lines'>>>;
}

let own: PracticeTable | undefined;

function practiceTable(): PracticeTable {
  own ??= JSON.parse(
    readFileSync(path.join(__dirname, '../../../data/models/practices.json'), 'utf8'),
  ) as PracticeTable;
  return own;
}

/**
 * What the trade does with an alloy, as marks for a map: the limits of its card, the ageing of its tempers (those
 * of one temperature as one mark), coating, ageing after welding, reheat limits.
 */
export function practicesFor(alloy: AlloyCard | string): Practices {
  const card = loadAlloy(alloy);
  const { everyAlloy, byAlloy } = practiceTable();
  const { points, lines } = byAlloy[card.designation] ?? { points: [], lines: [] };
  return {
    limits: card.limits.map(({ name, limitC }) => ({ name, limitC: limitC.value })),
    points: [...ageingPractices(card), ...everyAlloy, ...points],
    lines,
  };
}

function ageingPractices({ tempers }: AlloyCard): Practice[] {
  const byTemp = new Map<number, Practice>();
  for (const [temper, { ageing }] of Object.entries(tempers)) {
    if (!ageing) continue;
    const { tempC, timeS } = ageing;
    const same = byTemp.get(tempC.value);
    byTemp.set(tempC.value, {
      label: same ? `${same.label}, ${temper}` : `ageing to ${temper}`,
      tempC: tempC.value,
      timeS: [Math.min(timeS.low, same?.timeS[0] ?? timeS.low), Math.max(timeS.high, same?.timeS[1] ?? 0)],
      source: timeS.source,
      known: timeS.known,
    });
  }
  return [...byTemp.values()];
}
