import { type AlloyCard, meltsFromC, startTemper, withMetal } from '../alloy';
import { exactly } from '../exposure';
import { type ThermalHistory, thermalHistory } from '../history';
import { weldCycle } from '../kinetics';
import { knownOptions, nowAndThen, requireNumber, TemperbookError } from '../quantity';
import { weightedQuantiles } from '../statistics';
import { drawMetals, type LotWeights, lotDraws, type MetalDraws, runDraws } from '../strength';

/** How the metal is heated: held at one temperature, or a peak as beside a weld (`weldCycle`). */
export type HeatKind = 'soak' | 'weld-like';

/** Metal, heat and grid of a strength map. */
export interface StrengthMapOptions {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  readonly kind?: HeatKind;
  /** Yield measured on the part, MPa; otherwise what parts of the temper have. */
  readonly measuredYieldMPa?: number;
  /** What coupons or a chart say of the lot of metal (`lotCard`, `chartLot`). */
  readonly lots?: readonly LotWeights[];
  /** °C, first and last row of the map. */
  readonly tempC?: readonly [number, number];
  /** s, first and last column. */
  readonly timeS?: readonly [number, number];
  readonly rows?: number;
  readonly columns?: number;
  /** Called now and then with the share of the rows done, once it has taken two seconds. */
  readonly onProgress?: (share: number) => void;
}

/** Strength kept over how hot (rows, ascending) and how long (columns, ascending, even in the logarithm). */
export interface KeptMap {
  readonly alloy: string;
  readonly temper: string;
  readonly kind: HeatKind;
  readonly tempC: Float64Array;
  /** Of a soak its length, of a weld-like cycle the time within 20 °C of its peak, s. */
  readonly timeS: Float64Array;
  /** Median; `null` where metal begins to melt: no model answers there. */
  readonly keptFraction: readonly (readonly (number | null)[])[];
  /** 5 and 95 % of the draws. */
  readonly keptLow: readonly (readonly (number | null)[])[];
  readonly keptHigh: readonly (readonly (number | null)[])[];
  /** What the metals behind it are, and what its lots say of them. */
  readonly because: readonly string[];
}

const DAY_S = 86_400;
const USUAL_TIMES: Readonly<Record<HeatKind, readonly [number, number]>> = {
  soak: [1, 90 * DAY_S],
  'weld-like': [0.3, 3600],
};
/** Draws for a point of metal of any lot: a map is read to a percent, and a weld-like point is a run of its own. */
const DRAWS: Readonly<Record<HeatKind, number>> = { soak: 400, 'weld-like': 100 };

const OPTIONS = [
  'alloy',
  'temper',
  'kind',
  'measuredYieldMPa',
  'lots',
  'tempC',
  'timeS',
  'rows',
  'columns',
  'onProgress',
] as const satisfies readonly (keyof StrengthMapOptions)[];

/**
 * What heat does to one alloy and temper: yield kept, over its yield before, for every temperature and time of a grid, with
 * the band that metal of this history would get from `strengthAfter`. A soak row is one run with a look at every time; a
 * weld-like point is a run of its own.
 * @throws TemperbookError for options it does not know, as `strengthAfter`, and on a range that is none.
 */
export function strengthMap(given: StrengthMapOptions): KeptMap {
  const options: StrengthMapOptions = knownOptions(given, OPTIONS, 'strengthMap');
  const { alloy: card, temper } = withMetal(options);
  const {
    kind = 'soak',
    measuredYieldMPa,
    lots = [],
    tempC: [lowC, highC] = [150, 500],
    timeS = USUAL_TIMES[kind],
    rows: rowCount = 60,
    columns: columnCount = 60,
    onProgress,
  } = options;
  const { name } = startTemper(card, temper);
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
  const { count, weights, because } = lotDraws(lots, DRAWS[kind]);
  const metals = drawMetals({ alloy: card, temper: name, measuredYieldMPa }, count);
  const pointOf = (kept: Float64Array): MapPoint =>
    weightedQuantiles(kept, [0.05, 0.5, 0.95], weights) as [number, number, number];
  const tempC = Float64Array.from(
    { length: rowCount },
    (_, i) => lowC + ((highC - lowC) * i) / (rowCount - 1),
  );
  const columnS = Float64Array.from(
    { length: columnCount },
    (_, j) => firstS * (lastS / firstS) ** (j / (columnCount - 1)),
  );
  const tell = nowAndThen(onProgress);
  const rows = Array.from(tempC, (c, i) => {
    tell(i / rowCount);
    if (c >= meltingC) return undefined;
    const points = kind === 'soak' ? soakRow(metals, c, columnS) : weldRow(metals, c, columnS);
    return points.map(pointOf);
  });
  const line = (at: 0 | 1 | 2): (number | null)[][] =>
    rows.map((row) => row?.map((point) => point[at]) ?? new Array<null>(columnCount).fill(null));
  return {
    alloy: card.designation,
    temper: name,
    kind,
    tempC,
    timeS: columnS,
    keptLow: line(0),
    keptFraction: line(1),
    keptHigh: line(2),
    because: [...metals.because, ...because],
  };
}

/** Low, median, high. */
type MapPoint = readonly [number, number, number];

/** Yield kept by draw, at each time of a row. */
function soakRow(metals: MetalDraws, soakC: number, timeS: Float64Array): readonly Float64Array[] {
  const times = Float64Array.of(0, ...timeS);
  const soak = thermalHistory(times, new Float64Array(times.length).fill(soakC));
  const lookAt = Uint32Array.from(timeS, (_, j) => j + 1);
  return runDraws([exactly(soak)], metals, { lookAt }).onTheWay;
}

function weldRow(metals: MetalDraws, peakC: number, timeS: Float64Array): readonly Float64Array[] {
  return Array.from(timeS, (nearPeakS) => {
    const cycle: ThermalHistory = weldCycle({ peakC, nearPeakS });
    return runDraws([exactly(cycle)], metals).yieldKept;
  });
}

function checkRange(what: string, low: number, high: number, least: number): void {
  requireNumber(low, `The lowest ${what}`, { low: least });
  requireNumber(high, `The highest ${what}`);
  if (high <= low)
    throw new TemperbookError(`The map needs a span of ${what}`, { found: `${low} to ${high}` });
}
