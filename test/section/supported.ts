import { expect } from 'vitest';

/** An answer that the code gives, with what it says. */
export function supported<T extends { supported: boolean }>(answer: T): Extract<T, { supported: true }> {
  expect(answer).toMatchObject({ supported: true });
  return answer as Extract<T, { supported: true }>;
}
