// Compiles plateKernels.as to WebAssembly and writes it as plateKernelsWasm.ts. Needed only after a change of the
// kernels, so the compiler is not among the project's dependencies: `npm install --no-save assemblyscript@0.28.20`.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import asc from 'assemblyscript/asc';

const here = import.meta.dirname;
const source = readFileSync(join(here, 'plateKernels.as'), 'utf8');
let wasm;
const options = [
  'kernels.ts',
  '-O3',
  '--noAssert',
  '--runtime',
  'stub',
  '--importMemory',
  '--enable',
  'simd',
  '--outFile',
  'kernels.wasm',
];
const { error, stderr } = await asc.main(options, {
  readFile: (name) => (name === 'kernels.ts' ? source : null),
  writeFile: (_name, contents) => {
    wasm = contents;
  },
  listFiles: () => [],
});
if (error) throw new Error(`${error.message}\n${stderr.toString()}`);

const base64 = Buffer.from(wasm).toString('base64');
const lines = base64.match(/.{1,96}/g).map((part) => `  '${part}',`);
writeFileSync(
  join(here, 'plateKernelsWasm.ts'),
  `// Made from plateKernels.as by compile.mjs: change that file, not this one.

/** SHA-256 of the source this was compiled from. */
export const PLATE_KERNELS_SOURCE = '${createHash('sha256').update(source).digest('hex')}';

/** The compiled kernels, base64. */
export const PLATE_KERNELS_WASM = [
${lines.join('\n')}
].join('');
`,
);
process.stdout.write(`plateKernelsWasm.ts: ${wasm.length} bytes of WebAssembly\n`);
