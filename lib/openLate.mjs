// After the compiler: a table of contents (index.js of dist) opens a file only when something of it is first asked
// for, so that importing the kit, and a command that needs three rooms, load what they use. What was found is kept
// as a plain value.   node lib/openLate.mjs
import { chmodSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const dist = path.join(import.meta.dirname, '../dist');
const LATE = `function late(name, open) {
    Object.defineProperty(exports, name, { enumerable: true, configurable: true, get: function () {
        var value = open();
        Object.defineProperty(exports, name, { enumerable: true, value: value });
        return value;
    } });
}
`;

for (const file of readdirSync(dist, { recursive: true, encoding: 'utf8' })) {
  if (path.basename(file) !== 'index.js') continue;
  const at = path.join(dist, file);
  writeFileSync(at, openedLate(readFileSync(at, 'utf8'), file));
}
chmodSync(path.join(dist, 'cli/main.js'), 0o755);

function openedLate(text, file) {
  if (text.includes(LATE)) return text;
  const places = new Map(
    [...text.matchAll(/^var (\w+) = require\("([^"]+)"\);$/gm)].map(([, name, place]) => [name, place]),
  );
  const late = text
    .replace(/^var \w+ = require\("[^"]+"\);\n/gm, '')
    .replace(
      /^Object\.defineProperty\(exports, "(\w+)", \{ enumerable: true, get: function \(\) \{ return (\w+)\.(\w+); \} \}\);$/gm,
      (_, name, from, own) =>
        `late("${name}", function () { return require("${places.get(from)}").${own}; });`,
    )
    .replace(
      /^exports\.(\w+) = __importStar\(require\("([^"]+)"\)\);$/gm,
      'late("$1", function () { return require("$2"); });',
    )
    .replace('Object.defineProperty(exports, "__esModule", { value: true });\n', (line) => line + LATE);
  // What is left of the compiler's own forms would be opened at once, or not at all.
  const left = /^(?!late\().*\brequire\(|\b\w+_\d+\.\w+|__exportStar\(/m.exec(late);
  if (left) throw new Error(`${file}: a form of export that is not known here: ${left[0]}`);
  return late;
}
