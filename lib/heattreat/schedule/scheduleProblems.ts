import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type DataProblem, dataCheck } from '../../quantity';
import type { HoldStage, Schedule } from './schedule';

/** Where the kit's own schedules lie, seen alike from lib/ and from dist/. */
export const SCHEDULE_FOLDER = path.join(__dirname, '../../../data/schedules');
/** The shape of a file of schedules. */
export const SCHEDULE_SCHEMA = 'heat-treat-schedules.schema.json';

let known: ReturnType<typeof dataCheck> | undefined;

/** Everything wrong with a file of schedules: its shape, then what a schema cannot say. Empty when it is sound. */
export function scheduleProblems(file: unknown): readonly DataProblem[] {
  known ??= dataCheck(
    JSON.parse(readFileSync(path.join(SCHEDULE_FOLDER, SCHEDULE_SCHEMA), 'utf8')),
    'the file',
  );
  const ofShape = known(file);
  if (ofShape.length > 0) return ofShape;
  const { schedules } = file as { readonly schedules: readonly Schedule[] };
  return schedules.flatMap((schedule, i) => senseProblems(schedule, `schedules[${i}]`));
}

/** No solution treatment of an aluminium alloy is colder; no artificial ageing is hotter, °C. */
const BETWEEN_AGE_AND_SOLUTION_C = 300;

function senseProblems(schedule: Schedule, at: string): DataProblem[] {
  const { solution, quench, wait, ages, startsFrom } = schedule;
  const problems: DataProblem[] = [
    ...(solution ? holdProblems(solution, `${at}.solution`) : []),
    ...ages.flatMap((age, k) => holdProblems(age, `${at}.ages[${k}]`)),
  ];
  const say = (where: string, found: string, expected: string) =>
    problems.push({ at: `${at}${where}`, found, expected });
  if (!solution && ages.length === 0) say('', 'neither solution nor ageing', 'at least one hold');
  if (solution && solution.setC < BETWEEN_AGE_AND_SOLUTION_C)
    say('.solution.setC', `${solution.setC} °C`, 'a solution temperature: ageing and solution swapped?');
  ages.forEach((age, k) => {
    if (age.setC > BETWEEN_AGE_AND_SOLUTION_C)
      say(`.ages[${k}].setC`, `${age.setC} °C`, 'an ageing temperature: ageing and solution swapped?');
  });
  if (solution && startsFrom !== 'any')
    say('.startsFrom', `"${startsFrom}" with a solution treatment`, '"any"');
  if (!solution && startsFrom === 'any')
    say('.startsFrom', '"any" without a solution treatment', '"as cast" or "press quenched"');
  if (quench && !solution) say('.quench', 'a quench without a solution treatment', 'none, or both');
  if (wait && !(wait.lowC < wait.highC))
    say('.wait', `low ${wait.lowC} °C, high ${wait.highC} °C`, 'low below high');
  if (wait && wait.mostH !== null && wait.mostH < wait.leastH)
    say('.wait', `at least ${wait.leastH} h, at most ${wait.mostH} h`, 'least ≤ most: swapped?');
  const water = quench?.waterC;
  if (water && (water.low ?? 0) > water.high)
    say('.quench.waterC', `low ${water.low} °C, high ${water.high} °C`, 'low ≤ high');
  const limits = quench?.delayLimits ?? [];
  limits.forEach(({ upToMm, strictestS, loosestS }, k) => {
    if (strictestS > loosestS)
      say(`.quench.delayLimits[${k}]`, `${strictestS} s, then ${loosestS} s`, 'strictest ≤ loosest');
    const before = k === 0 ? 0 : limits[k - 1]!.upToMm;
    const isLast = k === limits.length - 1;
    if ((upToMm === null) !== isLast || (upToMm !== null && (before === null || upToMm <= before)))
      say(`.quench.delayLimits[${k}].upToMm`, String(upToMm), 'thicknesses that rise, null in the last');
  });
  return problems;
}

function holdProblems({ lowC, setC, highC, leastH, mostH }: HoldStage, at: string): DataProblem[] {
  const problems: DataProblem[] = [];
  if (!(lowC <= setC && setC <= highC && lowC < highC))
    problems.push({ at, found: `low ${lowC}, set ${setC}, high ${highC} °C`, expected: 'low ≤ set ≤ high' });
  if (mostH !== null && typeof leastH === 'number' && mostH < leastH)
    problems.push({
      at,
      found: `at least ${leastH} h, at most ${mostH} h`,
      expected: 'least ≤ most: are the two times swapped?',
    });
  return problems;
}
