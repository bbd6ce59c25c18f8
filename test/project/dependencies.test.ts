import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { isInstalled } from './installed';

interface LockedPackage {
  readonly name?: string;
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly link?: boolean;
  readonly hasInstallScript?: boolean;
}

const root = path.join(__dirname, '../..');
const readJson = (file: string) => JSON.parse(readFileSync(path.join(root, file), 'utf8'));
const locked: [string, LockedPackage][] = Object.entries(readJson('package-lock.json').packages);
const outside = locked.filter(([at, { link }]) => at.startsWith('node_modules/') && !link);

/** The package a folder of node_modules holds: an alias's own name where it is one. */
const nameOf = ([at, { name }]: [string, LockedPackage]) => name ?? at.replace(/^.*node_modules\//, '');

describe('the lock file', () => {
  it('holds danfojs, with what is used of its heaviest dependencies in their place, and the spreadsheets from the registry', () => {
    const held = (folder: string) =>
      locked
        .filter(([at]) => at.endsWith(`node_modules/${folder}`))
        .map(([, { resolved, name }]) => resolved ?? name);
    expect(outside.filter((one) => nameOf(one) === 'danfojs-node')).toHaveLength(1);
    expect(held('@tensorflow/tfjs-node')).toEqual(['notebooks/danfo/tensors']);
    expect(held('mathjs')).toEqual(['notebooks/danfo/maths']);
    expect(held('xlsx')).toEqual(['@e965/xlsx']);
  });

  // An install from before the last change of the lock file is for npm ci to mend.
  it.runIf(isInstalled)('is what is installed', () => {
    expect(readJson('node_modules/@tensorflow/tfjs-node/package.json').name).toBe('temperbook-tensors');
    expect(readJson('node_modules/mathjs/package.json').name).toBe('temperbook-maths');
    expect(readJson('node_modules/xlsx/package.json').name).toBe('@e965/xlsx');
  });

  it('names no address: every package comes from whatever registry npm is set to, by its checksum', () => {
    expect(locked.filter(([, { link, resolved }]) => resolved !== undefined && !link)).toEqual([]);
    expect(outside.filter(([, { integrity }]) => !integrity?.startsWith('sha512-'))).toEqual([]);
    expect(outside.filter(([, { version }]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version ?? ''))).toEqual([]);
  });

  it('holds only an install script that was read: it does not download, and npm ci here runs none', () => {
    // zeromq: tries the binary that it ships; only where that does not
    // load (a platform it ships none for) would it build, and Jupyter, its one user here, would not start.
    const withScript = outside.filter(([, { hasInstallScript }]) => hasInstallScript).map(nameOf);
    expect(withScript.sort()).toEqual(['zeromq']);
    expect(readFileSync(path.join(root, '.npmrc'), 'utf8')).toContain('ignore-scripts=true');
  });
});

describe('the packages', () => {
  it.each(['package.json', 'notebooks/package.json'])('%s pins every version exactly', (file) => {
    const { dependencies = {}, devDependencies = {}, overrides = {} } = readJson(file);
    const wanted: [string, string][] = Object.entries({ ...dependencies, ...devDependencies, ...overrides });
    const loose = wanted
      .filter(([, version]) => !/^(file:|\$)/.test(version))
      .filter(([, version]) => !/^(npm:@?[\w./-]+@)?\d+\.\d+\.\d+$/.test(version));
    expect(wanted.length).toBeGreaterThan(0);
    expect(loose).toEqual([]);
  });

  it('depend on the kit from the notebooks as a folder of a user would', () => {
    expect(readJson('notebooks/package.json').dependencies.temperbook).toBe('file:..');
  });

  it('leave danfojs to the notebooks: the library does not need it', () => {
    expect(Object.keys(readJson('package.json').dependencies)).not.toContain('danfojs-node');
  });

  it('come under licences that let a shop use the kit as it likes, listed in the built package', () => {
    // Weak copyleft at most (MPL-2.0 of zeromq): it binds changes of that package alone.
    const free = /^(MIT|ISC|Apache-2\.0|BSD-[23]-Clause|PSF-2\.0|MIT AND MPL-2\.0)( \(packed into dist\))?$/;
    const lines = readFileSync(path.join(root, 'dist/licences.txt'), 'utf8').trim().split('\n');
    expect(lines.filter((line) => !free.test(line.replace(/^[^:]*: /, '')))).toEqual([]);
    expect(lines.join('\n')).toMatch(/^zeromq /m);
    expect(lines.join('\n')).toMatch(/^plotly\.js-dist .*packed/m);
  });
});
