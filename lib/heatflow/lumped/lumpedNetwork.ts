import { type ThermalHistory, tempAt, thermalHistory } from '../../history';
import { formatTemp, requireNumber } from '../../quantity';
import type { LumpedJob } from './lumpedJob';
import { lumpedSystem } from './lumpedSystem';
import { type LumpedRun, marchLumped } from './marchLumped';

/** What `lumpedNetwork` returns. */
export interface LumpedResult {
  /** By part; all on the same time axis. */
  readonly histories: Readonly<Record<string, ThermalHistory>>;
  /** Heat brought by the pulses, lost through the skins, and stored; J. `imbalance` is what is left over, as a fraction of the turnover (of 1 J where nothing flows). */
  readonly energy: {
    readonly pulsesJ: number;
    readonly lostJ: number;
    readonly storedJ: number;
    readonly imbalance: number;
  };
  readonly steps: { readonly count: number; readonly repeated: number };
  /** Largest change of any history when the same job is run four times more accurately, K. */
  readonly timeStepErrorK: number;
  /** What should be looked at again, in sentences. */
  readonly notes: readonly string[];
}

/** Beyond this the bodies of a shop are gone, °C; aluminium melts at 660. */
const HOTTEST_C = 1200;

/**
 * Bulk temperatures of a few bodies that exchange heat, warm up by pulses and lose to their surroundings:
 *
 * m c dT/dt = P(t) − A [h (T − Ta) + ε σ (T⁴ − Ta⁴)] − Σ G (T − T_other)
 *
 * For what a part, its fixture and its surroundings do over an afternoon of passes. Limits of use: each body of one
 * temperature, that is h L / k below about 0.1 (aluminium in air: 0.001) and times longer than L²/α; the
 * temperature beside the weld is not in it.
 *
 * Implicit (two-stage diagonal Runge–Kutta of second order, L-stable; R. Alexander, SIAM J. Numer. Anal. 14 (1977)
 * 1006–1021), step chosen by its error, never across the edge of a pulse. Heat is kept to rounding.
 *
 * @param toleranceK error one step may add, default 0.02 K.
 * @throws TemperbookError for a key missing or not known, no parts, a name used twice or unknown, or a quantity that
 * cannot be.
 */
export function lumpedNetwork(job: LumpedJob, toleranceK = 0.02): LumpedResult {
  const system = lumpedSystem(job);
  requireNumber(toleranceK, 'toleranceK', { low: 1e-9, high: 100 });
  const run = marchLumped(system, job.untilS, toleranceK);
  const finer = historiesOf(job, marchLumped(system, job.untilS, toleranceK / 4));
  const histories = historiesOf(job, run);
  const end = run.temps.at(-1)!;
  const stored = system.capacity.map((c, i) => c * (end[i]! - system.startC[i]!));
  const storedJ = stored.reduce((sum, heat) => sum + heat, 0);
  const turnover =
    run.pulsesJ.gross + run.lostJ.gross + stored.reduce((sum, heat) => sum + Math.abs(heat), 0);
  return {
    histories,
    energy: {
      pulsesJ: run.pulsesJ.net,
      lostJ: run.lostJ.net,
      storedJ,
      imbalance: Math.abs(run.pulsesJ.net - run.lostJ.net - storedJ) / Math.max(turnover, 1),
    },
    steps: { count: run.timeS.length - 1, repeated: run.repeated },
    timeStepErrorK: Math.max(...job.parts.map(({ name }) => largestGap(histories[name]!, finer[name]!))),
    notes: job.parts.flatMap(({ name }) => heatNotes(name, histories[name]!)),
  };
}

function heatNotes(name: string, { tempC }: ThermalHistory): string[] {
  const peakC = tempC.reduce((a, b) => Math.max(a, b));
  return peakC > HOTTEST_C
    ? [`${name} reaches ${formatTemp(peakC)}: check the power and length of the pulses, and the mass in kg.`]
    : [];
}

function historiesOf({ parts }: LumpedJob, run: LumpedRun): Record<string, ThermalHistory> {
  return Object.fromEntries(
    parts.map(({ name }, i) => [
      name,
      thermalHistory(
        run.timeS,
        run.temps.map((temps) => temps[i]!),
      ),
    ]),
  );
}

function largestGap(coarse: ThermalHistory, fine: ThermalHistory): number {
  return fine.timeS.reduce(
    (largest, t, i) => Math.max(largest, Math.abs(fine.tempC[i]! - tempAt(coarse, t))),
    0,
  );
}
