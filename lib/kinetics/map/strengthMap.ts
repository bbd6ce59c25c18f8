import { type AlloyCard, findTemper, loadAlloy, meltsFromC } from '../../alloy';
import { type ThermalHistory, thermalHistory } from '../../history';
import { requireNumber, TemperbookError } from '../../quantity';
import { softeningModel } from '../softeningModel';
import type { StartState, TemperModel, TemperTrajectory } from '../temperModel';
import { weldCycle } from './weldCycle';

/** How the metal is heated: held at one temperature, or a peak as beside a weld (`weldCycle`). */
export type HeatKind = 'soak' | 'weld-like';

/** Metal, heat and grid of a strength map. */
export interface StrengthMapOptions {
  readonly alloy: AlloyCard | string;
  readonly temper: string;
  readonly kind?: HeatKind;
  /** Yield measured on the part, MPa; otherwise the card's typical value of the temper. */
  readonly measuredYieldMPa?: number;
  /** Default the softening model of the alloy; any other, such as the precipitate model. */
  readonly model?: TemperModel;
  /** °C, first and last row of the map. */
  readonly tempC?: readonly [number, number];
  /** s, first and last column. */
  readonly timeS?: readonly [number, number];
  readonly rows?: number;
  readonly columns?: number;
}

/** Strength kept over how hot (rows, ascending) and how long (columns, ascending, even in the logarithm). */
export interface KeptMap {
  readonly alloy: string;
  readonly temper: string;
  readonly kind: HeatKind;
  readonly model: string;
  readonly tempC: Float64Array;
  /** Of a soak its length, of a weld-like cycle the time within 20 °C of its peak, s. */
  readonly timeS: Float64Array;
  /** `null` where metal begins to melt: no model answers there. */
  readonly keptFraction: readonly (readonly (number | null)[])[];
  /** The model's own low and high line; absent for a model without a band. */
  readonly keptLow?: readonly (readonly (number | null)[])[];
  readonly keptHigh?: readonly (readonly (number | null)[])[];
}

const DAY_S = 86_400;
const USUAL_TIMES: Readonly<Record<HeatKind, readonly [number, number]>> = {
  soak: [1, 90 * DAY_S],
  'weld-like': [0.3, 3600],
};

/**
 * What heat does to one alloy and temper: yield kept, over its yield before, for every temperature and time of a
 * grid. A soak row is one run of the model with a sample at every time; a weld-like point is a run of its own.
 * @throws TemperbookError as the model does, and on a range that is none or a temper the card does not have.
 */
export function strengthMap({
  alloy,
  temper,
  kind = 'soak',
  measuredYieldMPa,
  model,
  tempC: [lowC, highC] = [150, 500],
  timeS = USUAL_TIMES[kind],
  rows: rowCount = 60,
  columns: columnCount = 60,
}: StrengthMapOptions): KeptMap {
  const card = loadAlloy(alloy);
  const { name, entry } = findTemper(card, temper);
  if (!Object.hasOwn(USUAL_TIMES, kind))
    throw new TemperbookError('There is no such kind of heat', {
      found: `"${kind}"`,
      expected: Object.keys(USUAL_TIMES).join(' or '),
    });
  checkRange('temperature in °C', lowC, highC, kind === 'soak' ? -200 : 120);
  const [firstS, lastS] = timeS;
  checkRange('time in s', firstS, lastS, Number.MIN_VALUE);
  requireNumber(rowCount, 'The number of rows', { low: 2, high: 1000 });
  requireNumber(columnCount, 'The number of columns', { low: 2, high: 1000 });

  const meltingC = meltsFromC(card);
  const engine = model ?? softeningModel(card);
  const from: StartState = { temper: name, measuredYieldMPa: measuredYieldMPa ?? entry.yieldMPa.value };
  const start = engine.start(from);
  const run = (history: ThermalHistory): Banded => engine.advance(start, history);
  const tempC = Float64Array.from(
    { length: rowCount },
    (_, i) => lowC + ((highC - lowC) * i) / (rowCount - 1),
  );
  const columnS = Float64Array.from(
    { length: columnCount },
    (_, j) => firstS * (lastS / firstS) ** (j / (columnCount - 1)),
  );
  const rows = Array.from(tempC, (c): MapRow => {
    if (c >= meltingC) return blankRow(columnCount);
    return kind === 'soak' ? soakRow(run, c, columnS) : weldRow(run, c, columnS);
  });
  const banded = rows.some(({ low }) => low !== undefined);
  return {
    alloy: card.designation,
    temper: name,
    kind,
    model: engine.name,
    tempC,
    timeS: columnS,
    keptFraction: rows.map(({ kept }) => kept),
    ...(banded
      ? {
          keptLow: rows.map(({ low, kept }) => low ?? kept),
          keptHigh: rows.map(({ high, kept }) => high ?? kept),
        }
      : {}),
  };
}

interface Banded extends TemperTrajectory<unknown> {
  readonly yieldKeptLow?: Float64Array;
  readonly yieldKeptHigh?: Float64Array;
}

type Run = (history: ThermalHistory) => Banded;

interface MapRow {
  readonly kept: readonly (number | null)[];
  readonly low?: readonly (number | null)[];
  readonly high?: readonly (number | null)[];
}

const blankRow = (columns: number): MapRow => ({ kept: new Array<null>(columns).fill(null) });

function soakRow(run: Run, soakC: number, timeS: Float64Array): MapRow {
  const times = Float64Array.of(0, ...timeS);
  const { yieldKeptFraction, yieldKeptLow, yieldKeptHigh } = run(
    thermalHistory(times, new Float64Array(times.length).fill(soakC)),
  );
  return {
    kept: Array.from(yieldKeptFraction.subarray(1)),
    ...(yieldKeptLow && yieldKeptHigh
      ? { low: Array.from(yieldKeptLow.subarray(1)), high: Array.from(yieldKeptHigh.subarray(1)) }
      : {}),
  };
}

function weldRow(run: Run, peakC: number, timeS: Float64Array): MapRow {
  const ends = Array.from(timeS, (nearPeakS) => {
    const end = run(weldCycle({ peakC, nearPeakS }));
    const at = end.timeS.length - 1;
    return { kept: end.yieldKeptFraction[at]!, low: end.yieldKeptLow?.[at], high: end.yieldKeptHigh?.[at] };
  });
  const kept = ends.map((end) => end.kept);
  return ends[0]!.low === undefined
    ? { kept }
    : { kept, low: ends.map((end) => end.low!), high: ends.map((end) => end.high!) };
}

function checkRange(what: string, low: number, high: number, least: number): void {
  requireNumber(low, `The lowest ${what}`, { low: least });
  requireNumber(high, `The highest ${what}`);
  if (high <= low)
    throw new TemperbookError(`The map needs a span of ${what}`, { found: `${low} to ${high}` });
}
