import { formatPercent } from '../../quantity';
import { weightedQuantile } from '../../statistics';
import type { StrengthAfter } from '../../strength';

/** Below this share dissolved the loss is over-ageing, above the other it is dissolution. */
const LITTLE = 0.1;
const MUCH = 0.5;

/**
 * Over-aged or dissolved ("annealed" is said of both): which of them took the strength, by the middle of the draws. Empty
 * where nothing was lost.
 */
export function whatWasLost({ yieldKeptFraction, draws, weights }: StrengthAfter): string[] {
  if (yieldKeptFraction.nominal > 0.98) return [];
  const dissolved = weightedQuantile(
    Float64Array.from(draws.states, ({ dissolution }) => Math.sqrt(Math.min(1, Math.max(0, dissolution)))),
    0.5,
    weights,
  );
  if (dissolved < LITTLE)
    return [
      'What is lost is over-aged, not annealed: ageing again brings none of it back, a full heat treatment does.',
    ];
  return dissolved > MUCH
    ? [
        `About ${formatPercent(dissolved)} of the particles are dissolved ("annealed"): ageing again brings part of that back, rest brings less.`,
      ]
    : [
        `About ${formatPercent(dissolved)} of the particles are dissolved, the rest is over-aged: ageing again brings back only what was dissolved.`,
      ];
}
