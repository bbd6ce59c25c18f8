import type { DecisionRecord } from '../decisionRecord';
import { type Html, html } from './html';
import { section, table } from './parts';

/** What this edition says otherwise than the one before it, side by side. */
export function changes({ edition, changes: all }: DecisionRecord): Html | undefined {
  if (all.length === 0) return undefined;
  return section(`What changed since edition ${edition - 1}`, [
    table(
      ['What', 'Was', 'Is now'],
      all.map(({ what, was, now }) => [what, was, now]),
    ),
    html`<p class="note">The edition before stands beside this one, as it was written.</p>`,
  ]);
}
