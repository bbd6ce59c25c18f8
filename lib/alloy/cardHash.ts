import { createHash } from 'node:crypto';
import type { AlloyCard } from './alloyCard';

/** Tells one state of a card from another: 16 hexadecimal digits of the SHA-256 of what it says. */
export const cardHash = (card: AlloyCard): string =>
  createHash('sha256').update(JSON.stringify(card)).digest('hex').slice(0, 16);
