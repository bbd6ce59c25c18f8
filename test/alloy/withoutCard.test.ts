import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';

describe('alloys without a card', () => {
  it.each(['357', 'A357.0', 'A357-T6', '6005A', 'EN AW-6005A'])(
    '%s: says what was found and why it is not enough',
    (name) => {
      expect(() => loadAlloy(name)).toThrow(/nothing measured after a second heat|no strength after a soak/);
    },
  );

  it.each(['2024', '7075', '319.0'])('%s: never looked for, and no reason made up', (name) => {
    expect(() => loadAlloy(name)).toThrow(/Copy a card/);
  });
});
