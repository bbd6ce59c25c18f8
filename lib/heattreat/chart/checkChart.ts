import { type Judged, TemperbookError } from '../../quantity';
import type { ToleranceClass } from '../../thermocouple';
import { listSchedules, loadSchedule } from '../schedule/loadSchedule';
import type { Schedule } from '../schedule/schedule';
import { type ChartStages, chartStages, partsOf, type Span } from './chartStages';
import { unitDoubt } from './chartUnit';
import { checkHolds } from './checkHolds';
import { type ChartLog, type JoinOptions, joinCharts } from './joinCharts';
import { meltingRequirement, USUAL_WIRE } from './meltingRequirement';
import { type NamedStage, namedStages } from './namedStages';
import { type ChartQuench, quenchRequirements } from './quench/quenchRequirements';
import { type QuenchStrength, quenchStrength } from './quench/quenchStrength';
import { overallWord, type Requirement, type RequirementWord } from './requirement';
import type { ChartSensor, SensorRole } from './sensorRoles';
import { quenchToAge, waitRequirement } from './waitRequirement';

/** What the chart does not say itself: of its sensors 'left out' for one that was broken, and of several charts the pauses. */
export interface ChartOptions extends JoinOptions {
  /** Thinnest dimension of the heaviest section, mm: soak and quench delay of wrought metal go by it. */
  readonly thicknessMm?: number;
  /** When the furnace door began to open for the quench, on the chart's clock, s. */
  readonly doorOpensS?: number;
  readonly wire?: ToleranceClass;
}

/** A furnace chart against a schedule. */
export interface ChartCheck {
  readonly schedule: Schedule;
  /** Of all requirements together. */
  readonly verdict: RequirementWord;
  readonly sentence: string;
  readonly requirements: readonly Requirement[];
  readonly sensors: readonly ChartSensor[];
  /** What each chart covers, s: one, or those that were joined. */
  readonly parts: readonly Span[];
  readonly stages: readonly NamedStage[];
  readonly quench?: ChartQuench;
  readonly quenchStrength?: QuenchStrength;
  /** Time from quench to ageing, s. */
  readonly quenchToAgeS?: Judged;
  readonly notes: readonly string[];
}

/**
 * Did the furnace do what the schedule asks? Names the stages of the chart and answers every requirement of the
 * schedule with met, not met or cannot tell, the moment it was decided at, and what is missing. Times count from
 * the coldest load sensor; a sensor that may sit in air proves nothing; what was not recorded is never met.
 * Readings are compared with the bands as read, as pyrometry does: the tolerance of the sensors belongs to the
 * furnace class. Only against melting does it count in full. Several charts of one load are joined (`joinCharts`), and
 * each stage goes by the sensors of the charts it lies on.
 * @param schedule a name, the path of a .json file, or a schedule; see `loadSchedule`.
 * @throws TemperbookError as `loadSchedule` and `joinCharts`, or when the log has no temperature.
 */
export function checkChart(
  log: ChartLog | readonly ChartLog[],
  schedule: string | Schedule,
  options: ChartOptions = {},
): ChartCheck {
  const plan = loadSchedule(schedule);
  const logs = [log].flat();
  if (logs.length === 0 || logs.some((one) => !one?.channels?.length))
    throw new TemperbookError('The furnace chart has no temperature channel', {
      expected: 'a log as readLog gives it',
    });
  const { sensors, parts, notes } = joinCharts(logs, options);
  const of = (role: SensorRole) =>
    sensors.filter((sensor) => sensor.role === role && sensor.history.timeS.length > 0);
  const loads = of('load');
  const stages = chartStages(loads, plan, parts);
  /** Those of the sensors that were recorded on a chart on which the stage lies. */
  const on = (found: readonly ChartSensor[], stage: Span | undefined) =>
    stage === undefined
      ? found
      : found.filter(({ history: { timeS } }) =>
          partsOf(stage, parts).some(({ fromS, toS }) => timeS.some((s) => s >= fromS && s <= toS)),
        );
  const held = checkHolds(
    plan,
    stages,
    (stage) => ({ loads: on(loads, stage), air: on(of('air'), stage) }),
    options.thicknessMm,
  );
  const { requirements: quenching, quench } = quenchRequirements({
    stage: plan.quench,
    solution: stages.solution,
    loads: on(loads, stages.solution),
    air: on(of('air'), stages.solution),
    water: sensors.filter(({ role }) => role === 'quench water'),
    ...(options.thicknessMm === undefined ? {} : { thicknessMm: options.thicknessMm }),
    ...(options.doorOpensS === undefined ? {} : { doorOpensS: options.doorOpensS }),
  });
  const hot = sensors.filter(({ role }) => role !== 'quench water' && role !== 'left out');
  const recorded = stages.solution !== undefined && (held.solution?.count?.unrecordedS ?? 1) === 0;
  const melting = meltingRequirement(plan, hot, options.wire ?? USUAL_WIRE, loads.length > 0, recorded);
  const all = [
    ...(held.solution?.requirements ?? []),
    ...(melting ? [melting] : []),
    ...quenching,
    ...waitRequirement(plan.wait, quench, stages.ages[0], plan.ages.length > 0, loads),
    ...held.ages.flatMap(({ requirements }) => requirements),
  ];
  const doubt = chartDoubt(sensors, hot, stages, plan);
  const requirements = doubt ? all.map((one) => doubted(one, doubt)) : all;
  const verdict = overallWord(requirements);
  const wait = quenchToAge(quench, stages.ages[0]);
  return {
    schedule: plan,
    verdict,
    sentence: sentenceOf(verdict, requirements, plan),
    requirements,
    sensors,
    parts,
    stages: doubt ? [] : namedStages(stages, quench, held),
    ...(quench && !doubt ? { quench, quenchStrength: quenchStrength(plan.alloy, quench, loads) } : {}),
    ...(wait && !doubt ? { quenchToAgeS: wait } : {}),
    notes: [...notesOf(plan, schedule, sensors, doubt), ...notes],
  };
}

/** What spoils the whole chart: its unit, several loads on it, a load sensor without a reading. */
function chartDoubt(
  sensors: readonly ChartSensor[],
  hot: readonly ChartSensor[],
  { severalLoads }: ChartStages,
  schedule: Schedule,
): string | undefined {
  const unit = unitDoubt(hot, schedule);
  if (unit) return unit;
  if (severalLoads) return `${severalLoads}: cut the log to one load, or leave the other load’s sensors out`;
  const dead = sensors.filter(({ role, history }) => role === 'load' && history.timeS.length === 0);
  if (dead.length > 0)
    return `no trusted reading of the load sensor ${dead.map(({ name }) => `"${name}"`).join(', ')}: the coldest metal may have been there; tell that it is left out if its place was not in the load`;
  return undefined;
}

/** A requirement on a chart that cannot be trusted as a whole. */
function doubted(one: Requirement, missing: string): Requirement {
  return { ...one, verdict: 'cannot tell', missing };
}

function sentenceOf(
  verdict: RequirementWord,
  requirements: readonly Requirement[],
  { name }: Schedule,
): string {
  const count = (word: RequirementWord) => requirements.filter((one) => one.verdict === word);
  const list = (word: RequirementWord) =>
    count(word)
      .map((one) => one.name)
      .join('; ');
  if (verdict === 'met') return `The chart meets every requirement of ${name}.`;
  const open = count('cannot tell').length > 0 ? ` Cannot tell: ${list('cannot tell')}.` : '';
  if (verdict === 'not met') return `The chart does not meet ${name}. Not met: ${list('not met')}.${open}`;
  return `Whether the chart meets ${name} cannot be told.${open}`;
}

function notesOf(
  plan: Schedule,
  asked: string | Schedule,
  sensors: readonly ChartSensor[],
  doubt: string | undefined,
): string[] {
  const others =
    typeof asked === 'string'
      ? listSchedules().filter(
          ({ alloy, temper, name }) => alloy === plan.alloy && temper === plan.temper && name !== plan.name,
        )
      : [];
  return [
    ...(doubt ? [`The chart as a whole: ${doubt}.`] : []),
    `Schedule ${plan.name}, edition: ${plan.edition}. The purchase specification governs.`,
    ...(plan.note ? [plan.note] : []),
    ...(others.length > 0
      ? [`Other schedules of this temper: ${others.map(({ name }) => name).join('; ')}.`]
      : []),
    ...sensors.map(({ name, role, because }) => `"${name}": ${role}, ${because}.`),
  ];
}
