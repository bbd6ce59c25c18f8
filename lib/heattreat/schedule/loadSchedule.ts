import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { loadAlloy } from '../../alloy';
import { refuseProblems, TemperbookError } from '../../quantity';
import type { Schedule } from './schedule';
import { SCHEDULE_FOLDER, SCHEDULE_SCHEMA, scheduleProblems } from './scheduleProblems';

/** A name as it is compared: no blanks, hyphens, commas or case. */
const plain = (name: string): string => name.toLowerCase().replace(/[\s,_-]|en-?aw|aa/g, '');

let own: readonly Schedule[] | undefined;

/** The kit's own schedules, in the order of their files. */
export function listSchedules(): readonly Schedule[] {
  own ??= readdirSync(SCHEDULE_FOLDER)
    .filter((file) => file.endsWith('.json') && file !== SCHEDULE_SCHEMA)
    .sort()
    .flatMap((file) => readSchedules(path.join(SCHEDULE_FOLDER, file)));
  return own;
}

/**
 * A heat-treat schedule.
 * @param schedule its name ("A356.0 T6 sand casting"), or as much of it as alloy and temper ("A356-T6"): then the
 * first of that alloy's file, which asks most; the path of a file of your own (.json) that holds one; or a
 * schedule as an object.
 * @throws TemperbookError when no schedule answers to the name, the file cannot be read, or the schedule is
 * wrong: then with every problem, its place, what was found and what is expected.
 */
export function loadSchedule(schedule: string | Schedule): Schedule {
  if (typeof schedule === 'object' && schedule !== null) {
    refuseProblems('This heat-treat schedule', scheduleProblems({ schedules: [schedule] }));
    return schedule;
  }
  if (typeof schedule !== 'string')
    throw new TemperbookError('No heat-treat schedule is given', {
      found: String(schedule),
      expected: 'a name such as "A356.0 T6 sand casting", the path of a .json file, or a schedule',
    });
  if (/\.json$/i.test(schedule)) return onlyOneOf(readSchedules(schedule), schedule);
  const asked = plain(schedule);
  const found =
    listSchedules().find(({ name }) => plain(name) === asked) ??
    listSchedules().find((one) => namesOf(one).includes(asked));
  if (found) return found;
  throw new TemperbookError('No heat-treat schedule answers to this name', {
    found: `"${schedule}"`,
    expected: `one of ${listSchedules()
      .map(({ name }) => `"${name}"`)
      .join(', ')}`,
    remedy: 'Or give the path of your own schedule, a .json file',
  });
}

/** Alloy and temper in every writing that the alloy card knows. */
function namesOf({ alloy, temper }: Schedule): string[] {
  const alloys = [alloy, alloy.replace(/\.0$/, '')];
  try {
    alloys.push(...loadAlloy(alloy).otherNames);
  } catch {
    // An alloy without a card is known by its own name only.
  }
  return alloys.map((name) => plain(`${name} ${temper}`));
}

function onlyOneOf(schedules: readonly Schedule[], file: string): Schedule {
  if (schedules.length === 1) return schedules[0]!;
  throw new TemperbookError('The file holds more than one schedule', {
    file,
    found: schedules.map(({ name }) => `"${name}"`).join(', '),
    expected: 'one',
    remedy: 'Move the one you mean into a file of its own',
  });
}

/** The schedules of a file. @throws TemperbookError as `loadSchedule`. */
function readSchedules(file: string): readonly Schedule[] {
  if (!existsSync(file)) throw new TemperbookError('There is no such file of heat-treat schedules', { file });
  let data: unknown;
  try {
    data = JSON.parse(readFileSync(file, 'utf8'));
  } catch (error) {
    throw new TemperbookError('The file of heat-treat schedules is not JSON', {
      file,
      found: error instanceof Error ? error.message : String(error),
    });
  }
  // One schedule by itself is as good as a list of one.
  const list =
    typeof data === 'object' && data !== null && 'schedules' in data ? data : { schedules: [data] };
  refuseProblems('This file of heat-treat schedules', scheduleProblems(list), { file });
  return (list as { readonly schedules: readonly Schedule[] }).schedules;
}
