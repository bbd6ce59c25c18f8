import { type ThermalHistory, thermalHistory } from '../../history';
import type { PointCells } from './checkCells';
import type { PlateModel } from './plateModel';

/** A straight line between samples of a history may miss the curve through them by this much, K. */
const FLATNESS_K = 0.05;
const MOST_POINTS = 20;
/** Where in a step its middle temperature is known. */
const MIDDLE = 2 - Math.SQRT2;

/** Keeps what a run is asked for: histories of points, the highest temperature and the time above limits of cells. */
export class PlateRecorder {
  readonly peakC: Float64Array;
  readonly secondsAbove: Float64Array[];
  private readonly timeS: number[][];
  private readonly tempC: number[][];

  constructor(
    private readonly model: PlateModel,
    private readonly probes: readonly PointCells[],
    private readonly limitsC: readonly number[],
    startS: number,
    startC: Float64Array,
  ) {
    this.peakC = startC.slice();
    this.secondsAbove = limitsC.map(() => new Float64Array(model.length));
    this.timeS = probes.map(() => [startS]);
    this.tempC = probes.map((probe) => [readPoint(probe, startC)]);
  }

  /** Adds a step from its temperatures at the start, in the middle and at the end. */
  add(fromS: number, toS: number, startC: Float64Array, middleC: Float64Array, endC: Float64Array): void {
    const { first, end } = this.model;
    const { peakC } = this;
    for (let cell = first; cell < end; cell++) {
      const higher = Math.max(middleC[cell]!, endC[cell]!);
      if (higher > peakC[cell]!) peakC[cell] = higher;
    }
    const middleS = fromS + MIDDLE * (toS - fromS);
    for (const [k, limitC] of this.limitsC.entries()) {
      this.addAbove(this.secondsAbove[k]!, limitC, middleS - fromS, startC, middleC);
      this.addAbove(this.secondsAbove[k]!, limitC, toS - middleS, middleC, endC);
    }
    for (const [k, probe] of this.probes.entries())
      this.addPoints(
        k,
        fromS,
        toS,
        readPoint(probe, startC),
        readPoint(probe, middleC),
        readPoint(probe, endC),
      );
  }

  history(probe: number): ThermalHistory {
    return thermalHistory(this.timeS[probe]!, this.tempC[probe]!);
  }

  /** Time above a limit on the straight line between two temperatures. */
  private addAbove(
    seconds: Float64Array,
    limitC: number,
    dtS: number,
    fromC: Float64Array,
    toC: Float64Array,
  ): void {
    const { first, end } = this.model;
    for (let cell = first; cell < end; cell++) {
      const a = fromC[cell]! - limitC;
      const b = toC[cell]! - limitC;
      if (a <= 0 && b <= 0) continue;
      seconds[cell]! += dtS * (a > 0 && b > 0 ? 1 : Math.max(a, b) / Math.abs(b - a));
    }
  }

  /** Start, middle and end define a parabola; where it bends, points on it are added between them. */
  private addPoints(
    probe: number,
    fromS: number,
    toS: number,
    start: number,
    middle: number,
    end: number,
  ): void {
    const bend = (end - start - (middle - start) / MIDDLE) / (1 - MIDDLE);
    const slope = end - start - bend;
    const lowest = Math.min(start, middle, end);
    const highest = Math.max(start, middle, end);
    const points = Math.sqrt((Math.abs(bend) * MIDDLE ** 2) / 4 / FLATNESS_K);
    const pieces = Math.min(MOST_POINTS, Math.ceil(points) || 1);
    const add = (share: number, temp: number) => {
      this.timeS[probe]!.push(fromS + share * (toS - fromS));
      this.tempC[probe]!.push(temp);
    };
    const curve = (share: number) =>
      Math.max(lowest, Math.min(highest, start + slope * share + bend * share * share));
    for (let i = 1; i < pieces; i++) add((MIDDLE * i) / pieces, curve((MIDDLE * i) / pieces));
    add(MIDDLE, middle);
    for (let i = 1; i < pieces; i++) {
      const share = MIDDLE + ((1 - MIDDLE) * i) / pieces;
      add(share, curve(share));
    }
    add(1, end);
  }
}

/** Temperature at a point from the cells around it. */
export function readPoint({ cells, weights }: PointCells, tempC: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < cells.length; i++) sum += weights[i]! * tempC[cells[i]!]!;
  return sum;
}
