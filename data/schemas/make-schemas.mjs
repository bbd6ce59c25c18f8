// Writes the schemas of files that people write, for editors. After a build: node data/schemas/make-schemas.mjs
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const { jobs } = createRequire(import.meta.url)('../../dist/index.js');
for (const [name, schema] of [
  ['job', jobs.jobSchema],
  ['shop-defaults', jobs.defaultsSchema],
])
  writeFileSync(
    path.join(import.meta.dirname, `${name}.schema.json`),
    `${JSON.stringify(schema, undefined, 1)}\n`,
  );
