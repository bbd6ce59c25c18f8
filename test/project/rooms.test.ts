import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOMS = [
  'quantity',
  'history',
  'alloy',
  'thermocouple',
  'statistics',
  'log',
  'exposure',
  'kinetics',
  'strength',
  'heatflow',
  'section',
  'planning',
  'heattreat',
  'verify',
  'decision',
  'validation',
  'report',
  'figure',
  'record',
  'job',
  'notebook',
  'cli',
];
const lib = path.join(__dirname, '../../lib');

interface Import {
  readonly from: string;
  readonly room: string;
  readonly target: string;
  readonly throughIndex: boolean;
}

function importsBetweenRooms(): Import[] {
  return readdirSync(lib, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts') && file.includes(path.sep))
    .flatMap((file) => {
      const room = file.split(path.sep)[0]!;
      const source = readFileSync(path.join(lib, file), 'utf8');
      return [...source.matchAll(/from '(\.\.?\/[^']*)'/g)].flatMap(([, specifier]) => {
        const resolved = path
          .relative(lib, path.resolve(lib, path.dirname(file), specifier!))
          .split(path.sep);
        const target = resolved[0]!;
        return target === room ? [] : [{ from: file, room, target, throughIndex: resolved.length === 1 }];
      });
    });
}

describe('the rooms of lib', () => {
  const imports = importsBetweenRooms();

  it('finds the imports it is about to judge', () => expect(imports.length).toBeGreaterThan(30));

  it('only import rooms to their left', () => {
    const wrong = imports.filter(({ room, target }) => !(ROOMS.indexOf(target) < ROOMS.indexOf(room)));
    expect(wrong.map(({ from, target }) => `${from} imports ${target}`)).toEqual([]);
  });

  it('import each other through the index', () => {
    const wrong = imports.filter(({ throughIndex }) => !throughIndex);
    expect(wrong.map(({ from, target }) => `${from} reaches into ${target}`)).toEqual([]);
  });
});
