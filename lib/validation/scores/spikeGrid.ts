import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type ThermalHistory, thermalHistory } from '../../history';

/** One spike of data/published/spikeGrid.json. */
export interface Spike {
  readonly peakC: number;
  readonly coolingTimeConstantS: number;
  readonly passes: number;
}

interface Grid {
  readonly startC: number;
  readonly heatingS: number;
  readonly peaksC: { readonly from: number; readonly to: number; readonly step: number };
  readonly coolingTimeConstantS: readonly number[];
  readonly passes: readonly number[];
  readonly sampleS: number;
}

let own: Grid | undefined;
function grid(): Grid {
  own ??= JSON.parse(
    readFileSync(path.join(__dirname, '../../../data/published/spikeGrid.json'), 'utf8'),
  ) as Grid;
  return own;
}

/** Every spike of the committed grid. */
export function spikes(): readonly Spike[] {
  const { peaksC, coolingTimeConstantS, passes } = grid();
  const peaks = Array.from(
    { length: Math.round((peaksC.to - peaksC.from) / peaksC.step) + 1 },
    (_, k) => peaksC.from + k * peaksC.step,
  );
  return peaks.flatMap((peakC) =>
    coolingTimeConstantS.flatMap((constantS) =>
      passes.map((count) => ({ peakC, coolingTimeConstantS: constantS, passes: count })),
    ),
  );
}

/** Cooling is followed for this many time constants before the next pass. */
const COOLED_CONSTANTS = 6;

/** The history of a spike: heated in a straight line, cooled exponentially, pass after pass. */
export function spikeHistory(
  { peakC, coolingTimeConstantS: constantS, passes }: Spike,
  everyS = grid().sampleS,
): ThermalHistory {
  const { startC, heatingS } = grid();
  const timeS: number[] = [];
  const tempC: number[] = [];
  const to = (atS: number, atC: number): void => {
    timeS.push(atS);
    tempC.push(atC);
  };
  let beganS = 0;
  for (let pass = 0; pass < passes; pass++) {
    to(beganS, pass === 0 ? startC : tempC[tempC.length - 1]!);
    const coolingS = COOLED_CONSTANTS * constantS;
    for (let t = 0; t <= coolingS; t += everyS)
      to(beganS + heatingS + t, startC + (peakC - startC) * Math.exp(-t / constantS));
    beganS += heatingS + coolingS + everyS;
  }
  return thermalHistory(timeS, tempC);
}
