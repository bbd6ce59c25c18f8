// Last of the build: the door for `import`, dist/index.mjs. Node reads every export of a CommonJS file that is imported,
// which opens every room. This door names the same things and opens a room when something of it is first used: a
// function stands there as one that calls the kit's own, a room as its table of contents, which `openLate` made
// late. Both doors lead to the same kit: one error class, one cache.   node lib/writeEsDoor.mjs
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const dist = path.join(import.meta.dirname, '../dist');
const kit = createRequire(import.meta.url)(path.join(dist, 'index.js'));

const isClass = (value) => /^class\b/.test(Function.prototype.toString.call(value));
const lines = Object.entries(kit).map(([name, value]) =>
  typeof value === 'function' && !isClass(value)
    ? `export function ${name}(...args) { return kit.${name}(...args); }`
    : `export const ${name} = kit.${name};`,
);
const text = `import { createRequire } from 'node:module';
const kit = createRequire(import.meta.url)('./index.js');
export default kit;
${lines.join('\n')}
`;
writeFileSync(path.join(dist, 'index.mjs'), text);
writeFileSync(
  path.join(dist, 'index.d.mts'),
  "import * as kit from './index.js';\nexport * from './index.js';\nexport default kit;\n",
);
