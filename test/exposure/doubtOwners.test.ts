import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { DOUBT_KINDS } from '../../lib/exposure';

const text = readFileSync('DEVELOPERS.md', 'utf8');
const [, table = ''] = text.split('### Every doubt has one owner\n');
const rows = (table.split('\n###')[0] ?? '')
  .split('\n')
  .filter((line) => line.startsWith('|'))
  .slice(2)
  .map((line) => line.split('|').map((cell) => cell.trim()));

describe('the table of owners', () => {
  it.each(DOUBT_KINDS)('names one owner of the doubt "%s", and its file makes it', (kind) => {
    const owners = rows.filter(([, name]) => name === kind).map(([, , owner]) => owner!);
    expect(owners).toHaveLength(1);
    const file = `lib/${/`(.+)`/.exec(owners[0]!)?.[1]}.ts`;
    expect(existsSync(file), file).toBe(true);
    expect(readFileSync(file, 'utf8')).toMatch(new RegExp(`kind: '${kind}'`));
  });
});
