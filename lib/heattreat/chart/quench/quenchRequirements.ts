import { formatDuration, formatTemp, type Judged, judged } from '../../../quantity';
import type { DelayLimit, QuenchStage } from '../../schedule/schedule';
import type { HoldWindow } from '../chartStages';
import { compare, type Requirement } from '../requirement';
import type { ChartSensor } from '../sensorRoles';
import { type Bracket, leavesPlateau, type SensorQuench, sensorQuench } from './quenchDrop';

/** The quench as the chart shows it. */
export interface ChartQuench {
  /** Where the whole load was under, s. */
  readonly immersedS: number;
  /** From the furnace to the last of the load under, s; null where nothing shows when the door opened. */
  readonly delayS: Judged | null;
  /** It took at least so long, s. */
  readonly delayAtLeastS: number;
  /** Of the slowest load sensor from 400 to 200 °C, K/s. */
  readonly rateKPerS: Judged;
  readonly sensors: readonly SensorQuench[];
}

/** What the quench is checked with. */
export interface QuenchToCheck {
  readonly stage: QuenchStage | undefined;
  readonly solution: HoldWindow | undefined;
  readonly loads: readonly ChartSensor[];
  readonly air: readonly ChartSensor[];
  readonly water: readonly ChartSensor[];
  readonly thicknessMm?: number;
  /** When the furnace door began to open, on the chart's clock, s. */
  readonly doorOpensS?: number;
}

/**
 * Quench delay, cooling rate and quench water. The delay runs from the door's opening to the last part under
 * (counting rule of T.O. 1-1A-9): the door shows in the furnace's air, or you say when; load sensors alone show
 * it late, so without either the delay is only known to be at least so long.
 */
export function quenchRequirements(check: QuenchToCheck): {
  readonly requirements: readonly Requirement[];
  readonly quench?: ChartQuench;
} {
  const { stage, solution, loads } = check;
  if (!stage) return { requirements: [] };
  const found = solution ? loads.flatMap((load) => sensorQuench(load, solution.toS) ?? []) : [];
  if (found.length < loads.length || found.length === 0) return { requirements: unseen(stage, check) };
  const quench = chartQuench(found, check);
  return {
    quench,
    requirements: [
      ...(stage.delayLimits ? [delayRequirement(stage.delayLimits, stage, quench, check)] : []),
      ...(stage.leastRateKPerS === undefined ? [] : [rateRequirement(stage.leastRateKPerS, quench)]),
      ...(stage.waterC ? [waterRequirement(stage.waterC, quench, check.water)] : []),
    ],
  };
}

function unseen(stage: QuenchStage, { loads, solution }: QuenchToCheck): Requirement[] {
  const missing =
    loads.length === 0
      ? 'a sensor in the load'
      : solution
        ? 'every load sensor from the furnace through 400 and 200 °C without a gap'
        : 'the chart of solution treatment and quench';
  const one = (name: string, wanted: string): Requirement => ({
    name: `Quench: ${name}`,
    stage: 'quench',
    verdict: 'cannot tell',
    found: 'not on this chart',
    wanted,
    atS: null,
    missing,
  });
  return [
    ...(stage.delayLimits ? [one('delay', 'a delay within its limit')] : []),
    ...(stage.leastRateKPerS === undefined
      ? []
      : [one('cooling rate', `at least ${stage.leastRateKPerS} °C/s from 400 to 200 °C`)]),
    ...(stage.waterC ? [one('water', waterWanted(stage.waterC))] : []),
  ];
}

function chartQuench(sensors: readonly SensorQuench[], { air, doorOpensS }: QuenchToCheck): ChartQuench {
  const under: Bracket = {
    low: Math.max(...sensors.map(({ immersed }) => immersed.low)),
    high: Math.max(...sensors.map(({ immersed }) => immersed.high)),
  };
  const leaving = sensors.map(({ leaves }) => leaves);
  const firstUnderS = Math.min(...sensors.map(({ immersed }) => immersed.low));
  const doors = air.map(({ history }) => leavesPlateau(history, firstUnderS));
  const earliest = (brackets: readonly Bracket[]): Bracket => ({
    low: Math.min(...brackets.map(({ low }) => low)),
    high: Math.min(...brackets.map(({ high }) => high)),
  });
  const door: Bracket =
    doorOpensS !== undefined
      ? { low: doorOpensS, high: doorOpensS }
      : doors.length > 0
        ? earliest([...doors, ...leaving])
        : { low: Number.NEGATIVE_INFINITY, high: earliest(leaving).high };
  const low = Math.max(0, under.low - door.high);
  const high = under.high - door.low;
  const slowest = sensors.reduce((a, b) => (b.rateKPerS.low < a.rateKPerS.low ? b : a));
  return {
    immersedS: under.high,
    delayAtLeastS: low,
    delayS: Number.isFinite(high)
      ? judged((low + high) / 2, [low, high], 's', [
          doorOpensS === undefined
            ? 'From where the furnace’s air leaves its plateau to the last load sensor under; the band is the logger’s interval.'
            : 'From the door as told to the last load sensor under.',
        ])
      : null,
    rateKPerS: judged(slowest.rateKPerS.nominal, [slowest.rateKPerS.low, slowest.rateKPerS.high], 'K/s', [
      `Average of ${slowest.sensor} from 400 to 200 °C; the band is what the logger’s interval leaves open.`,
    ]),
    sensors,
  };
}

function delayRequirement(
  limits: readonly DelayLimit[],
  { orAboveC }: QuenchStage,
  { delayS, delayAtLeastS, immersedS, sensors }: ChartQuench,
  { thicknessMm, air, doorOpensS }: QuenchToCheck,
): Requirement {
  const rows =
    thicknessMm === undefined
      ? limits
      : [limits.find(({ upToMm }) => upToMm === null || thicknessMm <= upToMm) ?? limits[limits.length - 1]!];
  const strictest = Math.min(...rows.map(({ strictestS }) => strictestS));
  const loosest = Math.max(...rows.map(({ loosestS }) => loosestS));
  const coldest = sensors.reduce((a, b) => (b.immersedC < a.immersedC ? b : a));
  const excused = orAboveC !== undefined && coldest.immersedC > orAboveC;
  const longestS = delayS?.high ?? Number.POSITIVE_INFINITY;
  const verdict =
    excused || longestS <= strictest ? 'met' : delayAtLeastS > loosest ? 'not met' : 'cannot tell';
  const open = [
    ...(strictest < loosest
      ? [
          thicknessMm === undefined && limits.length > 1
            ? 'the thickness of the metal'
            : 'the limit of your specification',
        ]
      : []),
    ...(air.length === 0 && doorOpensS === undefined ? ['when the furnace door opened'] : []),
    ...(delayS && delayS.high - delayAtLeastS > strictest ? ['a logger quick enough to see it'] : []),
  ];
  const span = delayS
    ? `${formatDuration(delayS.low)} to ${formatDuration(delayS.high)}`
    : `at least ${formatDuration(delayAtLeastS)}`;
  return {
    name: 'Quench: delay',
    stage: 'quench',
    verdict,
    found: `${span}; the coldest went under at ${formatTemp(coldest.immersedC)} or hotter, ${coldest.sensor}`,
    wanted: [
      strictest === loosest
        ? `at most ${strictest} s`
        : `at most ${strictest} to ${loosest} s, as published practice differs`,
      ...(orAboveC === undefined
        ? []
        : [`or all of the load above ${formatTemp(orAboveC)} as it goes under`]),
    ].join(', '),
    atS: immersedS,
    sensor: coldest.sensor,
    ...(delayS ? { measured: delayS } : {}),
    ...(verdict === 'cannot tell' ? { missing: open.join('; ') || 'a logger quick enough to see it' } : {}),
  };
}

function rateRequirement(least: number, { rateKPerS, immersedS }: ChartQuench): Requirement {
  const verdict = compare(rateKPerS, { low: least });
  return {
    name: 'Quench: cooling rate',
    stage: 'quench',
    verdict,
    found: `${rateKPerS.nominal.toPrecision(2)} °C/s from 400 to 200 °C in the slowest`,
    wanted: `at least ${least} °C/s from 400 to 200 °C`,
    atS: immersedS,
    measured: rateKPerS,
    ...(verdict === 'cannot tell' ? { missing: 'a logger quick enough to see it' } : {}),
  };
}

const waterWanted = ({ low, high, endHigh }: NonNullable<QuenchStage['waterC']>): string =>
  [
    low === undefined
      ? `water at most ${formatTemp(high)}`
      : `water at ${formatTemp(low)} to ${formatTemp(high)}`,
    ...(endHigh === undefined ? [] : [`at most ${formatTemp(endHigh)} afterwards`]),
  ].join(', ');

/** The water is watched for this long after the load is in, s. */
const AFTERWARDS_S = 600;

function waterRequirement(
  wanted: NonNullable<QuenchStage['waterC']>,
  { sensors, immersedS }: ChartQuench,
  water: readonly ChartSensor[],
): Requirement {
  const base = { name: 'Quench: water', stage: 'quench', wanted: waterWanted(wanted) } as const;
  const firstUnderS = Math.min(...sensors.map(({ immersed }) => immersed.low));
  let before: number | undefined;
  let after: number | undefined;
  for (const { history } of water)
    history.timeS.forEach((t, i) => {
      const c = history.tempC[i]!;
      if (t <= firstUnderS && t >= firstUnderS - AFTERWARDS_S) before = c;
      if (t > firstUnderS && t <= immersedS + AFTERWARDS_S) after = Math.max(after ?? c, c);
    });
  if (before === undefined)
    return {
      ...base,
      verdict: 'cannot tell',
      found: 'not on this chart',
      atS: null,
      missing:
        water.length > 0
          ? 'readings of the sensor in the quench water around the quench; the log’s faults say why any were left out'
          : 'a sensor in the quench water',
    };
  const bad =
    before > wanted.high ||
    (wanted.low !== undefined && before < wanted.low) ||
    (wanted.endHigh !== undefined && after !== undefined && after > wanted.endHigh);
  const open = wanted.endHigh !== undefined && after === undefined;
  return {
    ...base,
    verdict: bad ? 'not met' : open ? 'cannot tell' : 'met',
    found: `${formatTemp(before)} as the load went in${after === undefined ? '' : `, ${formatTemp(after)} at most afterwards`}`,
    atS: firstUnderS,
    ...(!bad && open ? { missing: 'the water after the quench' } : {}),
  };
}
