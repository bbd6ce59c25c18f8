import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { compileFunction } from 'node:vm';
import { gunzipSync } from 'node:zlib';
import type Ajv from 'ajv';
import type { Options, ValidateFunction } from 'ajv';

/** How schemas are checked, here and in the build. */
export const CHECK_OPTIONS: Options = { allErrors: true, verbose: true, allowUnionTypes: true };

/** Where the build puts the code of a schema's check (`packChecks`), packed to a tenth; sources have none. */
export const checkFile = (schema: object): string =>
  path.join(
    __dirname,
    'checks',
    `${createHash('sha256').update(JSON.stringify(schema)).digest('hex').slice(0, 16)}.js.gz`,
  );

/**
 * The check of a JSON Schema: as the build wrote it, which is read in a hundredth of a second, or else compiled here and
 * now, which takes up to half of one.
 */
export function schemaCheck(schema: object): ValidateFunction {
  const built = checkFile(schema);
  if (existsSync(built)) return unpacked(gunzipSync(readFileSync(built)).toString());
  const { default: Compiler }: { default: typeof Ajv } = require('ajv');
  // A command checks one file or two: polishing the check costs more than it saves.
  return new Compiler({ ...CHECK_OPTIONS, code: { optimize: false } }).compile(schema);
}

function unpacked(code: string): ValidateFunction {
  const module: { exports?: ValidateFunction } = {};
  compileFunction(code, ['module', 'require'])(module, require);
  return module.exports!;
}
