import { formatPercent } from '../../quantity';
import type { PlanResult } from './planResult';

/** What stands in the way: the metal that keeps least of its chance. */
export function whyNot({ metals }: PlanResult): string {
  const weakest = metals.reduce((a, b) => (b.chanceKept < a.chanceKept ? b : a));
  return `${weakest.alloy} keeps ${formatPercent(weakest.yieldKeptFraction.nominal)} at ${weakest.places[0]!.name}. A chill, smaller passes or a cooler arc may do what waiting cannot.`;
}

/** More draws than this that gain are told of. */
const GAINS = 0.05;

/** Heat makes under-aged metal stronger before it softens it: less heat is then less strength too. */
export function gains({ metals }: PlanResult): string {
  const gaining = metals.filter(({ gainsShare }) => gainsShare > GAINS);
  if (gaining.length === 0) return '';
  return ` In ${formatPercent(Math.max(...gaining.map(({ gainsShare }) => gainsShare)))} of the draws ${gaining.map(({ alloy }) => alloy).join(' and ')} ends stronger than before: under-aged metal gains by heat before it loses, at the price of ductility, so less heat does not leave more strength there.`;
}
