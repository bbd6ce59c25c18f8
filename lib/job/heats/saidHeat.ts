import type { SpotReading, WrittenPoints } from '../../exposure';
import type { OvenOptions } from '../../heatflow';
import type { BakeCertificate } from '../../heattreat';

/** A heat with what is known of it: one of `heat`, `points` and `certificate`. */
export interface KnownHeat extends OvenOptions, Partial<Pick<WrittenPoints, 'toK' | 'between'>> {
  /** In words: "3 x 390F 20min". */
  readonly heat?: string;
  /** Typed off a paper chart, or written down by hand: "0min 70F, 12min 395F"; with `toK` and `between`. */
  readonly points?: string;
  /** What a certificate without a chart states; `lot.name` of the job says whose it must be. */
  readonly certificate?: BakeCertificate;
  /** Temperature sticks on the metal in this heat: "400F melted", "400F not melted". */
  readonly sticks?: readonly string[];
  /** Readings by hand in this heat. */
  readonly spots?: readonly SpotReading[];
}

/** A heat that nobody logged, as a job file says it. */
export type SaidHeat = string | KnownHeat;
