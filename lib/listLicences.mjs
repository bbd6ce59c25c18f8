// After the compiler: writes what is installed with the kit, or packed into it, and under which licence, into dist.
//   node lib/listLicences.mjs
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const root = path.join(import.meta.dirname, '..');
const { packages } = JSON.parse(readFileSync(path.join(root, 'package-lock.json'), 'utf8'));
/** Not installed with the kit but part of what it writes: figures of a page run on it. */
const PACKED = 'node_modules/plotly.js-dist';

/** Where a package that asks for another finds it: beside itself, or in a folder further up. */
function found(name, from) {
  for (let at = from; ; at = at.slice(0, Math.max(0, at.lastIndexOf('/node_modules/')))) {
    const place = `${at && `${at}/`}node_modules/${name}`;
    if (packages[place]) return place;
    if (at === '') return undefined;
  }
}

const installed = new Set();
const open = [''];
while (open.length > 0) {
  const at = open.pop();
  const { dependencies = {}, optionalDependencies = {} } = packages[at];
  for (const name of Object.keys({ ...dependencies, ...optionalDependencies })) {
    const place = found(name, at);
    if (place === undefined || installed.has(place)) continue;
    installed.add(place);
    open.push(place);
  }
}
const line = (at, note = '') => {
  const { version, license } = packages[at];
  return `${at.replace(/^.*node_modules\//, '')} ${version}: ${license ?? 'see the package'}${note}`;
};
const lines = [...Array.from(installed, (at) => line(at)), line(PACKED, ' (packed into dist)')];
writeFileSync(path.join(root, 'dist/licences.txt'), `${lines.sort().join('\n')}\n`);
