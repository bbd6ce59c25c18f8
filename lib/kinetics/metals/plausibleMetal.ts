/**
 * Below half an hour almost nothing was measured, and models part there: `curve` carries the softening curve of the
 * handbooks down to seconds; `delayed` lets the loss begin late, as the size-class model does.
 */
export type MetalFamily = 'curve' | 'delayed';

/** How a temper stands to the peak of its hardening; see `startOfMetal`. */
export type TemperKind =
  | 'peak-aged'
  | 'under-aged'
  | 'over-aged'
  | 'naturally aged'
  | 'quenched'
  | 'as cast'
  | 'soft';

/** An Arrhenius time: `timeS` at `atC`, shorter when hotter with `energyJPerMol`. */
export interface ArrheniusTime {
  readonly timeS: number;
  readonly atC: number;
  readonly energyJPerMol: number;
}

/**
 * One plausible metal: everything that is uncertain about how a part answers heat, as plain numbers. A sample of them
 * (`plausibleMetals`) is what the kit knows of a part.
 */
export interface PlausibleMetal {
  readonly family: MetalFamily;
  readonly alloy: string;
  readonly temper: string;
  readonly kind: TemperKind;

  /** Yield before the heat, MPa. */
  readonly startYieldMPa: number;
  /** Yield when every particle has coarsened away (the O temper), MPa. */
  readonly floorMPa: number;
  /** Yield at the peak of ageing at 170 °C; it caps what an under-aged part can gain, MPa. */
  readonly peakYieldMPa: number;
  /** What all the solute in solution adds to the floor, freshly quenched, MPa. */
  readonly solutionMPa: number;
  /** What it adds on top once aged naturally, MPa. */
  readonly naturalMPa: number;
  /** Share of the solute an aged temper has left that is in clusters before the heat, 0 … 1. */
  readonly clusteredAtStart: number;

  /** Softening curve: time to half the hardening, of this part. */
  readonly softening: ArrheniusTime;
  /** Power of the softening curve in time. */
  readonly softeningPower: number;
  /** Time until half of what the curve takes is really gone; `null` in the family `curve`. */
  readonly delay: ArrheniusTime | null;

  /** Time to dissolve every particle, were there room for the solute. */
  readonly dissolution: ArrheniusTime;
  /** From here on all the solute fits into solution, °C, and how the share that fits falls below. */
  readonly solvusC: number;
  readonly solvusJPerMol: number;

  /** Time constant of ageing once there are nuclei, of this part. */
  readonly ageing: ArrheniusTime;
  /** Time constant in which nuclei form, over that of ageing; fully rested metal takes `restBrake` times as long. */
  readonly nucleiOverAgeing: number;
  readonly restBrake: number;
  /** Time constant in which heat makes metal forget that it rested. */
  readonly restForgotten: ArrheniusTime;
  /** Ageing runs no faster above this than here, °C. */
  readonly agesFastestC: number;
  /** No hardening forms from here on, °C; from 170 °C the most that can form falls in a straight line to it. */
  readonly noAgeingFromC: number;
  /** How strongly coarse survivors catch solute that would otherwise harden again, 0 … 2. */
  readonly coarseCatch: number;
  /** Time constant of natural ageing and, hot, of its reversion. */
  readonly clusters: ArrheniusTime;

  /** What an over-aged temper has seen already. */
  readonly treatment: { readonly tempC: number; readonly timeS: number } | null;
  /** Loss of ultimate strength over that of the yield, L: a L + b L² + c L³; `null`: not known. */
  readonly ultimateLoss: readonly [number, number, number] | null;
}
