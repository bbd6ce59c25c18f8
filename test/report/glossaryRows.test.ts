import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { glossaryRows } from '../../lib/report';

describe('the glossary', () => {
  it('stands in DEVELOPERS.md word by word', () => {
    const text = readFileSync('DEVELOPERS.md', 'utf8');
    for (const row of glossaryRows()) expect(text).toContain(`| ${Object.values(row).join(' | ')} |`);
  });
  it('has the words that mislead most', () =>
    expect(
      glossaryRows()
        .map((row) => row['They say'])
        .join(' '),
    ).toMatch(/HAZ.*over-aged.*annealed.*T0.*natural aging/));
});
