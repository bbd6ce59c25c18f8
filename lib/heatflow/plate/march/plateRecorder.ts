import { type ThermalHistory, thermalHistory } from '../../../history';
import type { PointCells } from '../model/pointCells';
import type { CellField, CellMemory } from './cellMemory';
import { MIDDLE } from './plateStepper';

/** A straight line between samples of a history may miss the curve through them by this much, K. */
const FLATNESS_K = 0.05;
const MOST_POINTS = 20;

/** Keeps what a run is asked for: histories of points, the highest temperature and the time above limits of cells. */
export class PlateRecorder {
  readonly peakC: CellField;
  readonly secondsAbove: readonly CellField[];
  private readonly timeS: number[][];
  private readonly tempC: number[][];

  constructor(
    private readonly memory: CellMemory,
    private readonly probes: readonly PointCells[],
    private readonly limitsC: readonly number[],
    startC: CellField,
  ) {
    this.peakC = memory.field();
    this.secondsAbove = limitsC.map(() => memory.field());
    this.peakC.values.set(startC.values);
    this.timeS = probes.map(() => [0]);
    this.tempC = probes.map((probe) => [readPoint(probe, startC.values)]);
  }

  /** Adds a step from its temperatures at the start, in the middle and at the end. */
  add(fromS: number, toS: number, startC: CellField, middleC: CellField, endC: CellField): void {
    const { kernels } = this.memory;
    kernels.raise(this.peakC.at, middleC.at);
    kernels.raise(this.peakC.at, endC.at);
    const middleS = fromS + MIDDLE * (toS - fromS);
    for (const [k, limitC] of this.limitsC.entries()) {
      const { at } = this.secondsAbove[k]!;
      kernels.addAbove(at, limitC, middleS - fromS, startC.at, middleC.at);
      kernels.addAbove(at, limitC, toS - middleS, middleC.at, endC.at);
    }
    const [start, middle, end] = [startC.values, middleC.values, endC.values];
    for (const [k, probe] of this.probes.entries())
      this.addPoints(k, fromS, toS, readPoint(probe, start), readPoint(probe, middle), readPoint(probe, end));
  }

  history(probe: number): ThermalHistory {
    return thermalHistory(this.timeS[probe]!, this.tempC[probe]!);
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
