import type { ErrorObject, ValidateFunction } from 'ajv';
import { type ErrorPlace, TemperbookError } from '../error';
import { nearestName } from '../nearestName';
import { schemaCheck } from './schemaCheck';

/** One thing wrong with data a user wrote: where in it, what stands there, what should. */
export interface DataProblem {
  /** Path inside the data, 'passes[1].startAfter.waitS'; a name of the whole for its outermost level. */
  readonly at: string;
  readonly found: string;
  readonly expected: string;
  /** Said in the place of both, where an error has its own words. */
  readonly instead?: string;
}

/**
 * A check of plain data against a JSON Schema (draft 7) that finds every problem at once. Where a node of the
 * schema has a `description`, that is what is said to be expected there.
 * @param whole what the outermost level is called, 'the card'.
 */
export function dataCheck(schema: object, whole: string): (data: unknown) => readonly DataProblem[] {
  let compiled: ValidateFunction | undefined;
  return (data) => {
    compiled ??= schemaCheck(schema);
    if (compiled(data)) return [];
    const all = compiled.errors ?? [];
    const choices = all
      .filter(({ keyword }) => keyword === 'anyOf')
      .map(({ schemaPath }) => `${schemaPath}/`);
    // What is wrong inside a name is told with the name itself, that of a condition with what it asks, and what is none
    // of several things once.
    const errors = all.filter(
      ({ propertyName, keyword, schemaPath }) =>
        propertyName === undefined &&
        keyword !== 'if' &&
        !choices.some((choice) => schemaPath.startsWith(choice)),
    );
    return errors.map((error) => problemOf(error, data, whole));
  };
}

/** @throws TemperbookError that lists the problems, where there are any. `what`: 'This alloy card'. */
export function refuseProblems(what: string, problems: readonly DataProblem[], place: ErrorPlace = {}): void {
  if (problems.length === 0) return;
  const lines = problems.map(
    ({ at, found, expected, instead }) => `  ${at}: ${instead ?? `found ${found}, expected ${expected}`}`,
  );
  const count = problems.length === 1 ? 'one problem' : `${problems.length} problems`;
  throw new TemperbookError(`${what} has ${count}:\n${lines.join('\n')}`, place);
}

/** Types of JSON in plain words, where they are not plain already. */
const KINDS: Readonly<Record<string, string>> = { object: 'an object', array: 'a list', string: 'a text' };

function problemOf(error: ErrorObject, data: unknown, whole: string): DataProblem {
  const { keyword, params, parentSchema = {} } = error;
  const description: string | undefined = parentSchema.description;
  const properties: Record<string, { description?: string }> = parentSchema.properties ?? {};
  const keys = error.instancePath
    .split('/')
    .slice(1)
    .map((key) => key.replace(/~1/g, '/').replace(/~0/g, '~'));
  const at = placeOf(keys, data) || whole;
  const found = show(error.data);
  switch (keyword) {
    case 'required': {
      const meaning = properties[params.missingProperty]?.description;
      const key = `the key "${params.missingProperty}"`;
      return { at, found: 'nothing', expected: meaning ? `${key}: ${meaning}` : key };
    }
    case 'additionalProperties': {
      const near = nearestName(params.additionalProperty, Object.keys(properties));
      return {
        at: placeOf([...keys, params.additionalProperty], data),
        found: 'a key the kit does not know',
        expected: `one of ${Object.keys(properties).join(', ')}${near ? `; did you mean ${near}?` : ''}`,
      };
    }
    case 'dependencies':
      return {
        at,
        found: `${params.property} without ${params.missingProperty}`,
        expected: 'both or neither',
      };
    case 'propertyNames': {
      const names = error.schema as { description?: string };
      return { at, found: `"${params.propertyName}"`, expected: names.description ?? 'another name' };
    }
    case 'const':
      return { at, found, expected: show(params.allowedValue) };
    case 'enum':
      return { at, found, expected: `one of ${params.allowedValues.map(show).join(', ')}` };
    case 'type':
      return { at, found, expected: description ?? KINDS[String(params.type)] ?? `a ${params.type}` };
    default:
      return { at, found, expected: description ?? error.message ?? 'another value' };
  }
}

/** 'passes[1].startAfter': items of a list by their index, as in the code that wrote them. */
function placeOf(keys: readonly string[], data: unknown): string {
  let node = data;
  let place = '';
  for (const key of keys) {
    place += Array.isArray(node) ? `[${key}]` : `${place && '.'}${key}`;
    node = (node as Record<string, unknown>)[key];
  }
  return place;
}

/** A value as a user would write it, cut short. NaN and infinities have no JSON of their own. */
function show(value: unknown): string {
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? 'nothing');
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
