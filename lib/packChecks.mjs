// After the compiler: writes the checks of the schemas that commands meet at their start as code of their own into dist,
// where `schemaCheck` finds them by the hash of the schema. Any other schema is compiled when it is first asked for.
//   node lib/packChecks.mjs
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { gzipSync } from 'node:zlib';

const dist = path.join(import.meta.dirname, '../dist');
const data = path.join(import.meta.dirname, '../data');
const require = createRequire(path.join(dist, 'index.js'));
const Ajv = require('ajv').default;
const codeOf = require('ajv/dist/standalone').default;
const { CHECK_OPTIONS, checkFile } = require('./quantity/schema/schemaCheck.js');

const schemas = [
  JSON.parse(readFileSync(path.join(data, 'alloys/alloy-card.schema.json'), 'utf8')),
  JSON.parse(readFileSync(path.join(data, 'schedules/heat-treat-schedules.schema.json'), 'utf8')),
  require('./kinetics/evidence/evidenceSchema.js').EVIDENCE_SCHEMA,
  require('./heatflow/plate/plan/planSchema.js').planSchema,
  require('./job/schema/jobSchema.js').jobSchema,
  require('./job/schema/jobSchema.js').defaultsSchema,
  require('./record/recordSchema.js').recordSchema,
];

const folder = path.join(dist, 'quantity/schema/checks');
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder);
for (const schema of schemas) {
  const ajv = new Ajv({ ...CHECK_OPTIONS, code: { source: true } });
  writeFileSync(checkFile(schema), gzipSync(codeOf(ajv, ajv.compile(schema))));
}
