import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkRecord, RECORD_FORM } from '../../lib/record';

const root = path.join(__dirname, '../..');

/** What a program of its own prints, run on the built kit. */
function told(script: string): string {
  const kit = JSON.stringify(path.join(root, 'dist'));
  const whole = `const kit = require(${kit});${script}
    const isAjv = (file) => /node_modules.ajv.dist.(?!runtime)/.test(file);
    console.log(Object.keys(require.cache).some(isAjv) ? 'compiled' : 'as built');`;
  return execFileSync(process.execPath, ['-e', whole], { cwd: root, encoding: 'utf8' }).trim();
}

describe('the checks of schemas', () => {
  it.each([
    ['alloy cards', "kit.loadAlloy('A356.0')"],
    ['evidence and plausible metals', "kit.kinetics.plausibleMetals('A356.0', 'T6', 1)"],
    ['schedules', 'kit.heattreat.listSchedules()'],
    ['job files, defaults and plans', "kit.readJob('data/demo/mast-foot-job.json')"],
  ])('of %s are code of the build, which nobody waits for', (_, script) => {
    expect(told(script)).toBe('as built');
  });

  it('of records say of a wrong one what a compiled check says', () => {
    const wrong = {
      form: RECORD_FORM,
      edition: 'one',
      odd: 1,
      verdict: { channels: [{ verdict: 'keptt' }] },
    };
    let compiled = '';
    try {
      checkRecord(wrong);
    } catch (error) {
      compiled = (error as Error).message;
    }
    expect(compiled).toContain('edition');
    const script = `try { kit.records.checkRecord(${JSON.stringify(wrong)}) } catch (error) { console.log(error.message) }`;
    expect(told(script)).toBe(`${compiled}\nas built`);
  });
});
