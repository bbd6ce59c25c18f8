import { readFileSync } from 'node:fs';
import path from 'node:path';
import Ajv, { type ErrorObject, type ValidateFunction } from 'ajv';
import type { Sourced } from '../quantity';
import type { AlloyCard } from './alloyCard';
import { ALLOY_FOLDER } from './alloyFolder';

/** One thing wrong with a card: where in the card, what stands there, what should. */
export interface CardProblem {
  /** Path inside the card, 'tempers.T6.yieldMPa.unit'; 'the card' for its outermost level. */
  readonly at: string;
  readonly found: string;
  readonly expected: string;
}

/**
 * Everything wrong with a candidate alloy card, empty when it is sound. First the shape (JSON Schema:
 * missing and unknown keys, types, units), then what a schema cannot say: low ≤ value ≤ high, positive
 * strengths and times, tables that match, curves and tempers that belong together.
 */
export function cardProblems(card: unknown): readonly CardProblem[] {
  const validate = cardValidator();
  if (!validate(card))
    return (validate.errors ?? [])
      .filter((error) => error.keyword !== 'pattern')
      .map((error) => schemaProblem(error, card));
  return [...bandProblems(card, ''), ...relationProblems(card as AlloyCard)];
}

let compiled: ValidateFunction | undefined;
function cardValidator(): ValidateFunction {
  const schema = path.join(ALLOY_FOLDER, 'alloy-card.schema.json');
  compiled ??= new Ajv({ allErrors: true }).compile(JSON.parse(readFileSync(schema, 'utf8')));
  return compiled;
}

function schemaProblem(error: ErrorObject, card: unknown): CardProblem {
  const keys = error.instancePath
    .split('/')
    .slice(1)
    .map((key) => key.replace(/~1/g, '/').replace(/~0/g, '~'));
  const at = keys.join('.') || 'the card';
  const found = show(keys.reduce<unknown>((node, key) => (node as Record<string, unknown>)?.[key], card));
  const { params, keyword } = error;
  switch (keyword) {
    case 'required':
      return { at, found: 'nothing', expected: `the key "${params.missingProperty}"` };
    case 'additionalProperties':
      return {
        at: [...keys, params.additionalProperty].join('.'),
        found: 'a key the kit does not know',
        expected: 'no such key (misspelt?)',
      };
    case 'propertyNames':
      return {
        at,
        found: `"${params.propertyName}"`,
        expected: at === 'compositionWtPct' ? 'a chemical symbol' : 'a temper like F, O, T4, T6 or T71',
      };
    case 'const':
      return { at, found, expected: show(params.allowedValue) };
    case 'enum':
      return { at, found, expected: `one of ${params.allowedValues.map(show).join(', ')}` };
    case 'type':
      return { at, found, expected: `a ${params.type}` };
    default:
      return { at, found, expected: error.message ?? 'another value' };
  }
}

const show = (value: unknown): string => {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
};

const isSourced = (node: object): node is Sourced => 'value' in node && 'low' in node && 'high' in node;
/** Everything on a card is a positive quantity, except a gain, a start dose and a loss, which may be zero. */
const MAY_BE_ZERO = /(gainFraction|startDoseS|lossFraction)$/;

function bandProblems(node: unknown, at: string): CardProblem[] {
  if (typeof node !== 'object' || node === null) return [];
  if (isSourced(node)) {
    const { low, value, high } = node;
    const found = `low ${low}, value ${value}, high ${high}`;
    if (!(low <= value && value <= high)) return [{ at, found, expected: 'low ≤ value ≤ high' }];
    if (low < 0 || (value === 0 && !MAY_BE_ZERO.test(at)))
      return [{ at, found, expected: 'a positive quantity' }];
    return [];
  }
  return Object.entries(node).flatMap(([key, child]) => bandProblems(child, at ? `${at}.${key}` : key));
}

function relationProblems(card: AlloyCard): CardProblem[] {
  const problems: CardProblem[] = [];
  for (const temper of Object.keys(card.overageing.curves))
    if (!(temper in card.tempers))
      problems.push({
        at: `overageing.curves.${temper}`,
        found: 'a curve',
        expected: `the temper ${temper} under "tempers" too`,
      });
  for (const [element, { min, nominal, max }] of Object.entries(card.compositionWtPct))
    if (!(min <= nominal && nominal <= max))
      problems.push({
        at: `compositionWtPct.${element}`,
        found: `min ${min}, nominal ${nominal}, max ${max}`,
        expected: 'min ≤ nominal ≤ max',
      });
  for (const name of ['conductivityTable', 'specificHeatTable'] as const) {
    const table = card.thermal[name];
    if (!table) continue;
    const at = `thermal.${name}`;
    if (table.tempC.length !== table.value.length)
      problems.push({
        at,
        found: `${table.tempC.length} temperatures and ${table.value.length} values`,
        expected: 'as many values as temperatures',
      });
    if (table.tempC.some((t, i) => i > 0 && t <= table.tempC[i - 1]!))
      problems.push({ at: `${at}.tempC`, found: show(table.tempC), expected: 'temperatures that ascend' });
  }
  return problems;
}
