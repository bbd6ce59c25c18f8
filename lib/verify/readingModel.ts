import type { AlloyCard } from '../alloy';
import { vickersOfYield } from '../kinetics';
import { brinellOfVickers, rockwellOfVickers } from './hardnessScales';
import type { Reading, ReadingKind } from './reading';

/** What a reading should be where metal kept a share of a yield, or why nobody can say. */
export type ReadingModel =
  | {
      /** Expected reading from the yield before the heat, MPa, and the share kept. */
      readonly expected: (startYieldMPa: number, kept: number) => number;
      /** Standard deviation of the relation itself, in units of the reading: one draw per part and instrument. */
      readonly relationSd: number;
      /** What the instrument repeats to, one standard deviation of one reading. */
      readonly repeatability: number;
      readonly because: string;
    }
  | { readonly nobodyKnows: string };

/** Repeatability on aluminium, one reading; common practice, no source, but for the 1 % IACS of MIL-STD-1537C. */
const REPEATS: Readonly<Record<ReadingKind, number>> = {
  brinell: 2,
  vickers: 3,
  rockwellE: 2,
  rockwellF: 2,
  rockwellB: 2,
  webster: 0.5,
  conductivity: 1,
  yield: 4,
};

/** One reading of HV is good to about 5 % of the yield; 15 MPa at 276, 5 HV (see `yieldOfVickers`). */
const RELATION_HV = 5;
/** Against cold metal of the same part what the relation is off by at one place it is off by at the other. */
const SHARED_HV = 1.5;

/** Brinell of a 356 casting that has no hardening left; see `castBrinell`. */
const SOFT_CASTING_HB = 45;
/** Share of the yield kept by which three European pairs of T6 and T7 lie off the rule: 0.03, 0.15 and 0.27 high or low. */
const CASTING_RELATION = 0.08;

/** What a bench reading says of the yield, for the metal and the instrument. */
export function readingModel(
  { kind, reference }: Pick<Reading, 'kind' | 'reference'>,
  { family, designation }: Pick<AlloyCard, 'family' | 'designation'>,
): ReadingModel {
  const repeatability = REPEATS[kind];
  if (kind === 'yield')
    return reference === undefined
      ? {
          expected: (start, kept) => start * kept,
          relationSd: 0,
          repeatability,
          because: 'A tensile test is the yield itself; what it was before goes by the temper.',
        }
      : {
          expected: (_, kept) => reference * kept,
          relationSd: 0,
          // The scatter of both bars counts.
          repeatability: Math.SQRT2 * repeatability,
          because: 'A tensile test is the yield itself, against a bar of cold metal of the same part.',
        };
  if (kind === 'conductivity' || kind === 'webster' || kind === 'rockwellF')
    return {
      nobodyKnows: `No source gives the yield of ${designation} from ${NAMES[kind]}: it is kept in the record and moves no chance.`,
    };
  return family === 'Al-Mg-Si wrought'
    ? wroughtHardness(kind, reference, repeatability)
    : castBrinell(kind, reference, repeatability, designation);
}

const NAMES = {
  conductivity: 'the conductivity',
  webster: 'a Webster gauge',
  rockwellF: 'Rockwell F',
} as const;

function wroughtHardness(
  kind: 'brinell' | 'vickers' | 'rockwellE' | 'rockwellB',
  reference: number | undefined,
  repeatability: number,
): ReadingModel {
  const scale = (hv: number): number =>
    kind === 'vickers'
      ? hv
      : kind === 'brinell'
        ? brinellOfVickers(hv)
        : rockwellOfVickers(kind === 'rockwellE' ? 'HRE' : 'HRB', hv);
  const of = (yieldMPa: number): number => scale(vickersOfYield(yieldMPa));
  const perHv = Math.abs(scale(101) - scale(100));
  const compared = reference !== undefined;
  return {
    expected: (start, kept) => (compared ? reference + of(start * kept) - of(start) : of(start * kept)),
    relationSd: (compared ? SHARED_HV : RELATION_HV) * perHv,
    // Against cold metal the scatter of both readings counts.
    repeatability: compared ? Math.SQRT2 * repeatability : repeatability,
    because: `HV = 0.33 × yield + 16${kind === 'vickers' ? '' : ', turned into the scale by ASTM E140 from memory'}${compared ? ', against cold metal of the same part' : ''}.`,
  };
}

/**
 * A casting's Brinell against cold metal of the same casting: (HB − 45)/(HB₀ − 45) follows the yield better than HB/HB₀.
 * Source: pairs of T6 and over-aged AlSi7Mg in BS 1490, GOST 1583 and GB/T 1173, read second hand.
 */
function castBrinell(
  kind: ReadingKind,
  reference: number | undefined,
  repeatability: number,
  designation: string,
): ReadingModel {
  if (kind !== 'brinell')
    return {
      nobodyKnows: `Only Brinell has a rule on castings of ${designation}: this reading is kept in the record and moves no chance.`,
    };
  if (reference === undefined || reference <= SOFT_CASTING_HB + 5)
    return {
      nobodyKnows: `A Brinell reading on ${designation} says nothing by itself: read cold metal of the same casting too (more than ${SOFT_CASTING_HB + 5} HB), and give it as the reference.`,
    };
  const span = reference - SOFT_CASTING_HB;
  return {
    expected: (_, kept) => SOFT_CASTING_HB + span * kept,
    relationSd: CASTING_RELATION * span,
    repeatability: Math.SQRT2 * repeatability,
    because: `(HB − ${SOFT_CASTING_HB})/(HB₀ − ${SOFT_CASTING_HB}) follows the share of the yield kept; the rule is good to about ${100 * CASTING_RELATION} % of the yield.`,
  };
}
