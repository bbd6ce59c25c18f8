import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import PLAN from '../../data/demo/mast-foot-two-probes-plan.json';
import { defaultsSchema, type JobFile, jobSchema, readJob } from '../../lib/job';
import { TemperbookError } from '../../lib/quantity';

const demo = path.resolve('data/demo/mast-foot-job.json');
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'job-'));
  writeFileSync(path.join(folder, 'log.csv'), 'Time (s),TC1 (°C)\n0,20\n1,21\n');
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A job file of this text in a folder that has log.csv. */
function jobFile(text: string): string {
  const file = path.join(folder, 'job.json');
  writeFileSync(file, text);
  return file;
}

function complaint(act: () => unknown): string {
  try {
    act();
  } catch (error) {
    expect(error).toBeInstanceOf(TemperbookError);
    return (error as Error).message;
  }
  throw new Error('nothing was refused');
}

const refused = (job: object): string => complaint(() => readJob(jobFile(JSON.stringify(job))));

describe('readJob', () => {
  it('reads the demo, comments and all, with its paths from where it stands', () => {
    const job = readJob(demo);
    expect(job.log?.file).toBe(path.resolve('data/demo/mast-foot-weld.csv'));
    expect(job.metal).toEqual({ alloy: 'A356', temper: 'T6' });
    expect(job.probes['TC4 tube 25 mm']!.metal).toEqual({ alloy: '6061', temper: 'T6' });
    expect(job.sheet).toMatchObject({ job: 'J-1042', partNumber: 'HB-07', serial: '07', filler: '4043' });
    expect(job.sheet.probes).toContain('TC1 block 12 mm: 12 mm from the toe');
    expect(job.plan?.passes.map(({ name }) => name)).toEqual(['root', 'fill', 'cap', 'repair']);
  });

  it('takes an object of the same form, with its paths from where the program runs', () => {
    const job = readJob({ log: 'data/demo/mast-foot-weld.csv', metal: { alloy: 'A356', temper: 'T-6' } });
    expect(job.file).toBeUndefined();
    expect(job.log?.file).toBe(path.resolve('data/demo/mast-foot-weld.csv'));
    expect(job.metal).toEqual({ alloy: 'A356', temper: 'T6' });
  });

  it("takes the shop's defaults for what the job leaves out", () => {
    writeFileSync(
      path.join(folder, 'shop.json'),
      '{ "limits": { "limitC": "420F", "allowanceFraction": 0.2 }, "measuring": { "attachment": "cemented" }, // all\n "probes": [{ "named": "tube", "metal": "6061-T6" }], }',
    );
    const job = readJob(
      jobFile(
        '{ "defaults": "shop.json", "log": "log.csv", "metal": "A356-T6", "limits": { "allowanceFraction": 0.1 } }',
      ),
    );
    expect(job.limits).toEqual({ limitC: '420F', allowanceFraction: 0.1 });
    expect(job.measuring).toEqual({ attachment: 'cemented' });
    expect(job.named).toEqual([{ named: 'tube', metal: { alloy: '6061', temper: 'T6' } }]);
  });

  it('lists all that is wrong at once, with what was probably meant', () => {
    const message = refused({
      log: 'logg.csv',
      metall: 'A356-T6',
      limits: { limitC: 440, allowanceFraction: 10 },
      probes: { TC1: { placeMm: 12, attachement: 'peened hole' } },
      readings: [{ channel: 'TC1', kind: 'brinell', value: 780 }],
    });
    expect(message).toMatch(/The job file has \d+ problems/);
    expect(message).toContain('metall: found a key the kit does not know');
    expect(message).toContain('did you mean metal?');
    expect(message).toContain('did you mean attachment?');
    expect(message).toContain('probes.TC1: found placeMm without placeFrom');
    expect(message).toContain('limits.allowanceFraction: found 10, expected yield loss');
    expect(message).toMatch(/readings\[0\]: found 780 HB .*expected 15 to 200 HB/);
    expect(message).toContain('"logg.csv", which is not there');
  });

  it.each([
    [{ limits: { limitC: 440 } }, /limits\.limitC: found limitC 440.*'440F'/],
    [{ limits: { limitC: '440 K' } }, /limits\.limitC: found "440 K"/],
    [{ metal: 'A365-T6' }, /metal: found "A365"/],
    [{ metal: { alloy: '6061', temper: 'T99' } }, /metal: found "T99" .*expected one of/],
    [
      { measuring: { attachment: 'glue' } },
      /measuring\.attachment: found "glue", expected how it is fixed: one of "welded wires"/,
    ],
    [{ measuring: { thermocouple: { type: 'K', standard: 'IEC 60584-1', class: 4 } } }, /class: found 4/],
    [{ plan: 'none.json' }, /plan, none\.json: .*none\.json: The plan cannot be opened/],
    [{ plan: { cellMm: 2 } }, /plan: found nothing, expected the key "part"/],
    [
      {
        plan: {
          ...PLAN,
          passes: [{ ...PLAN.passes[0], startAfter: { interpassC: 5, atProbe: PLAN.probes[0].name } }],
        },
      },
      /plan: root would wait for ever\. Found: interpassC 5\.0 °C.*Nothing here is colder than 19\.0 °C/,
    ],
    [
      { plan: { ...PLAN, passes: [{ ...PLAN.passes[0], travel: 2 }] } },
      /plan\.passes\[0\]\.travel: found a key the kit does not know, expected one of path, .*travelMmPerS/,
    ],
    [{ earlier: [{ record: 'none.json' }] }, /earlier\[0\]\.record: .*none\.json: There is no such record/],
    [
      { decision: { disposition: 'accept with condition', reason: 'soft' } },
      /decision: found nothing, expected the key "condition"/,
    ],
    [{ sheet: { part: 'HB-07' } }, /sheet\.part: found a key/],
    [{ lot: { chart: { file: 'chart.csv' } } }, /lot\.chart\.file: found "chart\.csv", which is not there/],
    [{ log: { file: 'log.csv', read: { unit: '°R' } } }, /log\.read\.unit/],
  ])('says where a job is wrong and what is expected: %j', (over, told) => {
    expect(refused({ log: 'log.csv', ...over })).toMatch(told);
  });

  it('says of a record what it is, and not what every key of it is not', () => {
    const file = jobFile('{ "form": "temperbook decision record 3", "edition": 1 }');
    const said = complaint(() => readJob(file));
    expect(said).toMatch(/decision record, not a job file.*temperbook amend/s);
    expect(said).not.toContain('edition');
  });

  it('names the row of what is no JSON, of a file cut short and of a key said twice', () => {
    expect(complaint(() => readJob(jobFile('{\n  "log": "log.csv",\n  "metal": "A356-T6"')))).toMatch(
      /job\.json, row 3: The job file is cut short/,
    );
    expect(complaint(() => readJob(jobFile('{\n  "log": "log.csv"\n  "metal": "A356-T6" }')))).toMatch(
      /row 3: The job file is no JSON.*a comma/,
    );
    expect(complaint(() => readJob(jobFile('{ "log": "log.csv",\n "log": "other.csv" }')))).toMatch(
      /row 2: The job file says one thing twice.*"log"/,
    );
    expect(complaint(() => readJob(jobFile('')))).toMatch(/cut short/);
    expect(complaint(() => readJob(path.join(folder, 'none.json')))).toMatch(/none\.json.*cannot be opened/);
  });

  it.each([null, [], 7, 'none'])('refuses what is no job: %j', (value) => {
    complaint(() => readJob(value as unknown as JobFile));
  });
});

describe('the schemas of job and defaults', () => {
  it('lie in data/schemas for editors as the kit has them', () => {
    for (const [name, schema] of [
      ['job', jobSchema],
      ['shop-defaults', defaultsSchema],
    ] as const)
      expect(JSON.parse(readFileSync(`data/schemas/${name}.schema.json`, 'utf8'))).toEqual(
        JSON.parse(JSON.stringify(schema)),
      );
  });

  it('say of every key what it is', () => {
    const mute: string[] = [];
    const walk = (node: unknown, at: string): void => {
      const { properties = {}, items } = node as { properties?: Record<string, object>; items?: object };
      for (const [key, inside] of Object.entries(properties)) {
        if (!('description' in inside) && !('const' in inside)) mute.push(`${at}.${key}`);
        walk(inside, `${at}.${key}`);
      }
      if (items) walk(items, `${at}[]`);
    };
    walk(jobSchema, 'job');
    walk(defaultsSchema, 'defaults');
    // The plan says itself what its own parts are.
    expect(mute.filter((at) => !at.startsWith('job.plan.'))).toEqual([]);
  });

  it('gives the unit of every number', () => {
    const bare: string[] = [];
    const walk = (node: unknown, at: string): void => {
      if (typeof node !== 'object' || node === null) return;
      const { type, description = '' } = node as { type?: unknown; description?: string };
      const isNumber = type === 'number' || (Array.isArray(type) && type.includes('number'));
      if (
        isNumber &&
        !/°C|mm|MPa|HV|\bs\b|fraction|unit|W\b|Mpa|a number$|K\)|0 to 1|%|the value|layers|J\/K|kg|, h$/.test(
          description,
        )
      )
        bare.push(`${at}: ${description}`);
      for (const [key, inside] of Object.entries(node)) if (key !== 'sheet') walk(inside, `${at}.${key}`);
    };
    walk(jobSchema, 'job');
    expect(bare.filter((at) => !at.includes('.plan.'))).toEqual([]);
  });
});
