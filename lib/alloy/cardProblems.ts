import { readFileSync } from 'node:fs';
import path from 'node:path';
import { type DataProblem, dataCheck, type Sourced } from '../quantity';
import type { AlloyCard } from './alloyCard';
import { ALLOY_FOLDER } from './alloyFolder';

/** One thing wrong with a card: where in the card, what stands there, what should. */
export type CardProblem = DataProblem;

/**
 * Everything wrong with a candidate alloy card, empty when it is sound. First the shape (JSON Schema:
 * missing and unknown keys, types, units), then what a schema cannot say: low ≤ value ≤ high, positive
 * strengths and times, tables that match, curves and tempers that belong together.
 */
export function cardProblems(card: unknown): readonly CardProblem[] {
  const ofShape = checkOfShape()(card);
  return ofShape.length > 0 ? ofShape : [...bandProblems(card, ''), ...relationProblems(card as AlloyCard)];
}

let known: ReturnType<typeof dataCheck> | undefined;
function checkOfShape(): ReturnType<typeof dataCheck> {
  const schema = path.join(ALLOY_FOLDER, 'alloy-card.schema.json');
  known ??= dataCheck(JSON.parse(readFileSync(schema, 'utf8')), 'the card');
  return known;
}

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
      problems.push({
        at: `${at}.tempC`,
        found: table.tempC.join(', '),
        expected: 'temperatures that ascend',
      });
  }
  return problems;
}
