import type { LimitCheck, Verdict } from '../../decision';
import type { Exposure } from '../../exposure';
import type { Judged } from '../../quantity';
import type { LotWeights, VerdictWord } from '../../strength';
import type { DecisionRecord } from '../decisionRecord';
import { restoredExposure } from '../heat/recordedExposure';
import { restoredLot } from '../heat/recordedLot';

/** A place of a weld with its verdict, what its metal saw of it, and what before. */
export interface WeldPlace {
  readonly name: string;
  readonly alloy: string;
  readonly temper: string;
  readonly measuredYieldMPa?: number;
  readonly verdict: VerdictWord;
  readonly chanceKept: number | null;
  readonly yieldKeptFraction: Judged;
  readonly peakC: Judged;
  readonly limits: readonly LimitCheck[];
  readonly exposure: Exposure;
  readonly earlier: readonly Exposure[];
}

/** A weld as it is compared: a log, a plan or a record, judged. */
export interface Weld {
  readonly name: string;
  /** What its lots say of its metal. */
  readonly lots?: readonly LotWeights[];
  readonly places: readonly WeldPlace[];
}

/** A weld from a verdict on its log. */
export function weldOfVerdict(name: string, verdict: Verdict): Weld {
  return { name, ...lotsOf(verdict.lots), places: verdict.channels };
}

/** A weld from its record; heats that were counted before it come with it. */
export function weldOfRecord(name: string, record: DecisionRecord): Weld {
  const { channels, lots } = record.verdict;
  return {
    name,
    ...lotsOf(lots?.map(restoredLot)),
    places: channels.map((one) => ({
      ...one,
      exposure: restoredExposure(one.exposure),
      earlier: one.earlier.map(restoredExposure),
    })),
  };
}

const lotsOf = (lots: Weld['lots']): Pick<Weld, 'lots'> => (lots ? { lots } : {});
