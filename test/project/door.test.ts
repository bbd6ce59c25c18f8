import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = path.join(__dirname, '../..');
const kit: Readonly<Record<string, unknown>> = require(path.join(root, 'dist'));

/** Names that others build on; see the table in DEVELOPERS.md. */
const FIXED = [
  'readLog',
  'celsiusToEmf',
  'emfToCelsius',
  'loadAlloy',
  'timeAbove',
  'equivalentTime',
  'dissolvedFraction',
  'precipitateModel',
  'overageingModel',
  'judge',
  'solvePlate',
  'softZone',
  'compareScenarios',
  'checkChart',
  'weldedResistance',
  'sizeSection',
  'readJob',
  'reviewJob',
];

describe('the public door', () => {
  const names = Object.keys(kit);
  const functions = names.filter((name) => typeof kit[name] === 'function');
  const groups = names.filter((name) => typeof kit[name] === 'object');

  it('names what a user starts with, about 25 things', () => {
    expect(functions).toEqual(expect.arrayContaining(FIXED));
    expect(functions.length).toBeLessThanOrEqual(35);
    expect([...functions, ...groups].sort()).toEqual([...names].sort());
  });

  it('groups everything by room, so that nothing a room offers is out of reach', () => {
    const rooms = readdirSync(path.join(root, 'lib'), { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && entry.name !== 'cli')
      .map(({ name }) => name);
    const offered = groups.map((group) =>
      Object.keys(kit[group] as object)
        .sort()
        .join(),
    );
    for (const room of rooms) {
      const own: Readonly<Record<string, unknown>> = require(path.join(root, 'dist', room));
      expect(offered, room).toContain(Object.keys(own).sort().join());
    }
    expect(groups.length).toBe(rooms.length);
  });

  it('is the same through import, which opens no room until something of it is used', () => {
    const script = `
      import * as door from ${JSON.stringify(pathToFileURL(path.join(root, 'dist/index.mjs')).href)};
      import { createRequire } from 'node:module';
      const require = createRequire(${JSON.stringify(`${root}/`)});
      const opened = () => Object.keys(require.cache).filter((file) => !/index\\.js$/.test(file)).length;
      const before = opened();
      const kit = require('./dist/index.js');
      let refused;
      try { door.judge(7, {}); } catch (error) { refused = error; }
      const { default: whole, ...names } = door;
      console.log(JSON.stringify({
        names: Object.keys(names).sort(),
        before,
        after: opened(),
        isOneErrorClass: refused instanceof kit.TemperbookError && kit.TemperbookError === door.TemperbookError,
        isOneKit: whole === kit && door.figures === kit.figures,
      }));`;
    const said = execFileSync(process.execPath, ['--input-type=module', '--eval', script], {
      encoding: 'utf8',
    });
    const told = JSON.parse(said);
    expect(told.names).toEqual([...names].sort());
    expect(told).toMatchObject({ isOneErrorClass: true, isOneKit: true });
    // The error class alone; all rooms together are some hundreds of files.
    expect(told.before).toBeLessThan(5);
    expect(told.after).toBeGreaterThan(told.before + 10);
  });

  it('has every name the notebooks ask for', () => {
    const folder = path.join(root, 'notebooks');
    const asked = readdirSync(folder)
      .filter((file) => file.endsWith('.ipynb'))
      .flatMap((file) => [
        ...readFileSync(path.join(folder, file), 'utf8').matchAll(/import \{([^}]*)\} from 'temperbook'/g),
      ])
      .flatMap(([, list]) => list!.split(',').map((name) => name.trim().replace(/ as \w+$/, '')))
      .filter((name) => !name.startsWith('type '));
    expect(asked.length).toBeGreaterThan(20);
    expect(asked.filter((name) => !names.includes(name))).toEqual([]);
  });
});
