import type { ThermalHistory } from '../../history';
import { formatDuration, formatTemp, formatTempSpan, judged } from '../../quantity';
import type { HoldStage } from '../schedule/schedule';
import { BY_THICKNESS } from '../schedule/schedule';
import { leastSeconds } from '../schedule/soakHours';
import type { HoldWindow, Span } from './chartStages';
import { steepestHeating } from './heatingRate';
import { hottestReading, type Neighbours } from './hottestReading';
import { compare, type Requirement, type RequirementWord, type StageKind } from './requirement';
import type { ChartSensor } from './sensorRoles';
import { type BandTime, type HoldCount, timeInBand } from './timeInBand';
import { furnaceSensors, upperLimit } from './upperLimit';

/** A hold of the schedule, and where the chart shows it. */
export interface HoldToCheck {
  readonly stage: Extract<StageKind, 'solution' | 'age'>;
  /** "Solution treatment", "Ageing", "Ageing, step 2". */
  readonly name: string;
  readonly hold: HoldStage;
  readonly window: HoldWindow | undefined;
  /** A hotter stage before or after it. */
  readonly neighbours: Neighbours;
  /** Where heating towards the hold may begin, s. */
  readonly heatingFromS: number;
}

/** A hold that the chart shows. */
type SeenHold = Omit<HoldToCheck, 'window' | 'heatingFromS' | 'neighbours'> & { readonly window: HoldWindow };

/** A hold as it was counted; absent where the chart does not show it. */
export interface CheckedHold {
  readonly requirements: readonly Requirement[];
  readonly count?: HoldCount;
}

/** What a schedule asks of one hold, against the chart. `loads` are the load sensors, `air` those of the furnace. */
export function holdRequirements(
  { stage, name, hold, window, neighbours, heatingFromS }: HoldToCheck,
  loads: readonly ChartSensor[],
  air: readonly ChartSensor[],
  thicknessMm: number | undefined,
): CheckedHold {
  const wantedTime = timeWanted(hold, thicknessMm);
  const band = `${formatTemp(hold.lowC)} to ${formatTemp(hold.highC)}`;
  const unknown = (what: string, found: string, wanted: string, missing: string): Requirement => ({
    name: `${name}: ${what}`,
    stage,
    verdict: 'cannot tell',
    found,
    wanted,
    atS: null,
    missing,
  });
  if (!window || loads.length === 0) {
    const found = loads.length === 0 ? 'no load sensor' : 'not on this chart';
    const missing =
      loads.length === 0
        ? 'a sensor in the load, or word of which of the sensors are in it'
        : 'the chart of this stage, or one that goes on long enough';
    return {
      requirements: [
        unknown('time in the band', found, `${wantedTime} within ${band}`, missing),
        unknown('upper limit', found, `no load sensor above ${formatTemp(hold.highC)}`, missing),
      ],
    };
  }
  const count = timeInBand(loads, window, hold);
  const requirements: Requirement[] = [
    soakRequirement({ stage, name, hold, window }, count, wantedTime, band, thicknessMm),
    upperLimit(stage, name, hold, window, count, hottestReading(loads, window, hold, neighbours)),
  ];
  if (hold.mostH !== null) requirements.push(longestTime(stage, name, hold, window, loads));
  if (hold.maxSpreadK !== undefined)
    requirements.push(spreadRequirement(stage, name, hold.maxSpreadK, count));
  const furnace = furnaceSensors(
    stage,
    name,
    hold,
    hottestReading(air, window, hold, neighbours),
    !air.some(({ history }) => hasGapWithin(history, window)),
  );
  if (furnace) requirements.push(furnace);
  if (hold.maxHeatingKPerH !== undefined)
    requirements.push(
      heatingRequirement(stage, name, hold, hold.maxHeatingKPerH, window, heatingFromS, loads),
    );
  return { requirements, count };
}

/** Was part of a stretch of time not recorded? */
const hasGapWithin = (
  { timeS, gapAfter = new Uint32Array() }: ThermalHistory,
  { fromS, toS }: Span,
): boolean => gapAfter.some((i) => timeS[i]! < toS && timeS[i + 1]! > fromS);

function timeWanted(hold: HoldStage, thicknessMm: number | undefined): string {
  const { high } = leastSeconds(hold, thicknessMm);
  if (!Number.isFinite(high)) return 'at least the time the thickness asks for';
  const most = hold.mostH === null ? '' : `, at most ${formatDuration(hold.mostH * 3600)}`;
  return `at least ${formatDuration(high)}${most}`;
}

function soakRequirement(
  { stage, name, hold, window }: SeenHold,
  { proved, possible, coldestBest, lastIn, dip, unrecordedS }: HoldCount,
  wantedTime: string,
  band: string,
  thicknessMm: number | undefined,
): Requirement {
  const least = leastSeconds(hold, thicknessMm);
  const cut = [
    ...(window.cutAtStart ? ['the chart begins within this stage'] : []),
    ...(window.cutAtEnd ? ['the chart ends within this stage'] : []),
  ];
  const high = cut.length > 0 && touchesCut(possible, window) ? Number.POSITIVE_INFINITY : possible.longestS;
  const verdict: RequirementWord =
    proved.longestS >= least.high * (1 - 1e-9)
      ? 'met'
      : high < least.low * (1 - 1e-9)
        ? 'not met'
        : 'cannot tell';
  const never = proved.longestS === 0;
  const found = never
    ? `never with all load sensors in the band; the coldest reached ${formatTemp(coldestBest.tempC)}`
    : [
        `${hoursMinutes(proved.longestS)} without a break`,
        ...(proved.runs.length > 1
          ? [
              `${hoursMinutes(proved.sumS)} in ${proved.runs.length} runs together`,
              ...(dip ? [`a dip to ${formatTemp(dip.tempC)} at ${dip.sensor}`] : []),
            ]
          : []),
      ].join(', ');
  const why = [
    ...(hold.leastH === BY_THICKNESS && thicknessMm === undefined ? ['the thickness of the metal'] : []),
    ...cut,
    ...(unrecordedS > 0 ? [`readings for ${formatDuration(unrecordedS)} of this stage`] : []),
  ];
  return {
    name: `${name}: time in the band`,
    stage,
    verdict,
    found,
    wanted: `${wantedTime} within ${band}`,
    atS: proved.longest?.fromS ?? coldestBest.atS,
    sensor: dip?.sensor ?? lastIn,
    measured: judged(proved.longestS, [proved.longestS, Math.max(possible.longestS, proved.longestS)], 's', [
      'Longest run with every load sensor inside the band; the high end counts what was not recorded as inside.',
    ]),
    ...(verdict === 'cannot tell' ? { missing: why.join('; ') || 'readings of this stage' } : {}),
  };
}

/** A run that reaches the end of the chart may have gone on. */
const touchesCut = ({ runs }: BandTime, { fromS, toS, cutAtStart, cutAtEnd }: HoldWindow): boolean =>
  runs.some((run) => (cutAtStart && run.fromS <= fromS) || (cutAtEnd && run.toS >= toS));

/** Any of the load at the hold's lower limit or hotter counts towards too long a time. */
function longestTime(
  stage: HoldToCheck['stage'],
  name: string,
  hold: HoldStage,
  window: HoldWindow,
  loads: readonly ChartSensor[],
): Requirement {
  const { proved, possible, unrecordedS } = timeInBand(loads, window, { lowC: hold.lowC, highC: 2000 });
  const mostS = hold.mostH! * 3600;
  const cut = window.cutAtStart || window.cutAtEnd;
  const verdict = compare(
    { low: proved.sumS, high: cut ? Number.POSITIVE_INFINITY : possible.sumS },
    { high: mostS },
  );
  return {
    name: `${name}: not too long`,
    stage,
    verdict,
    found: `${hoursMinutes(proved.sumS)} at ${formatTemp(hold.lowC)} or hotter, by the coldest load sensor`,
    wanted: `at most ${formatDuration(mostS)}`,
    atS: proved.runs[proved.runs.length - 1]?.toS ?? null,
    ...(verdict === 'cannot tell'
      ? { missing: cut ? 'all of this stage on the chart' : `readings for ${formatDuration(unrecordedS)}` }
      : {}),
  };
}

function spreadRequirement(
  stage: HoldToCheck['stage'],
  name: string,
  maxSpreadK: number,
  { spread, proved, unrecordedS }: HoldCount,
): Requirement {
  const over = spread.kelvin > maxSpreadK;
  const blind = unrecordedS > 0 || proved.longestS === 0;
  return {
    name: `${name}: load sensors together`,
    stage,
    verdict: over ? 'not met' : blind ? 'cannot tell' : 'met',
    found: `up to ${formatTempSpan(spread.kelvin, 1)} apart`,
    wanted: `at most ${formatTempSpan(maxSpreadK, 1)} apart`,
    atS: spread.atS,
    ...(!over && blind ? { missing: 'readings of every load sensor in the band' } : {}),
  };
}

function heatingRequirement(
  stage: HoldToCheck['stage'],
  name: string,
  { lowC }: HoldStage,
  maxKPerH: number,
  window: HoldWindow,
  fromS: number,
  loads: readonly ChartSensor[],
): Requirement {
  const steepest = steepestHeating(loads, fromS, window.toS, lowC);
  const wanted = `at most ${maxKPerH} °C/h on the way up`;
  if (!steepest || window.cutAtStart)
    return {
      name: `${name}: heating rate`,
      stage,
      verdict: 'cannot tell',
      found: 'the way up is not on the chart',
      wanted,
      atS: null,
      missing: 'the chart from a cold load on',
    };
  const over = steepest.kPerH > maxKPerH;
  return {
    name: `${name}: heating rate`,
    stage,
    verdict: over ? 'not met' : steepest.isWhole ? 'met' : 'cannot tell',
    ...(over || steepest.isWhole ? {} : { missing: 'the way up without a gap' }),
    found: `${steepest.kPerH.toFixed(0)} °C/h over five minutes, ${steepest.sensor}`,
    wanted,
    atS: steepest.atS,
    sensor: steepest.sensor,
  };
}

/** "4 h 32 min": a soak is read to the minute. */
export function hoursMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (seconds < 600) return formatDuration(seconds);
  const h = Math.floor(minutes / 60);
  return h === 0 ? `${minutes} min` : minutes % 60 === 0 ? `${h} h` : `${h} h ${minutes % 60} min`;
}
