import { describe, expect, it } from 'vitest';
import demo from '../../data/demo/mast-foot-size.json';
import { readSizeJob, readUnits, sizeSection, sizeWords } from '../../lib/section';

describe('units in a file', () => {
  it.each([
    [{ wall: '1/8 in' }, { wallMm: 3.175 }],
    [{ axial: '2 kip' }, { axialN: 8896.443230521 }],
    [{ momentX: '10 lbf ft' }, { momentXNmm: 13558.179483314 }],
    [{ momentX: '1.5 kN·m' }, { momentXNmm: 1.5e6 }],
    [{ stress: '10 ksi' }, { stressMPa: 68.94757293168 }],
    [{ interpass: '212 °F' }, { interpassC: 100 }],
    [{ doubt: '20 %' }, { doubtFraction: 0.2 }],
    [{ at: ['10 mm', '-1 cm'] }, { atMm: [10, -10] }],
    [{ wallMm: 3 }, { wallMm: 3 }],
  ])('%j', (written, read) => {
    const found = readUnits(written) as Record<string, number | number[]>;
    for (const [key, value] of Object.entries(read))
      for (const [i, number] of [value].flat().entries())
        expect([found[key]!].flat()[i]).toBeCloseTo(number, 6);
  });
  it.each([
    [{ wall: 3 }, /wall needs a number with its unit.*Found: 3.*"12.5 mm"/],
    [{ loads: [{ axial: '2 MPa' }] }, /loads\[0\]\.axial needs a number with its unit.*2 MPa.*N, kN/],
    [{ stress: '200' }, /stress needs/],
    [{ wall: '1/0 in' }, /wall needs/],
  ])('refuses %j', (written, message) => expect(() => readUnits(written)).toThrow(message));
});

describe('a size job', () => {
  it('reads the demo, and its words say what it needs', () => {
    const job = readSizeJob(demo);
    expect(job.options.stockMm).toEqual([2, 3, 4, 5, 6, 8, 10]);
    const size = sizeSection(job.section, job.loads, job.options);
    expect(size.supported && sizeWords(size).join(' ')).toMatch(
      /Now, at 3 mm: a factor of .* of the stock, 5 mm\. Thicker is not always stronger here/,
    );
  });
  it('lists everything that is wrong at once', () => {
    const { factor: _, ...rest } = demo;
    const wrong = { ...rest, metal: { ...demo.metal, filer: '4043', process: 'MAG' } };
    expect(() => readSizeJob(wrong)).toThrow(
      /problems[\s\S]*"factor"[\s\S]*metal.filer[\s\S]*did you mean filler[\s\S]*MIG/,
    );
    expect(() => readSizeJob('no-such-file.json')).toThrow(/no-such-file.json: The file cannot be read/);
  });
});
