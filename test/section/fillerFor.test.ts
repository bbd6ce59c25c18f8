import { describe, expect, it } from 'vitest';
import { type FillerQuestion, fillerFor } from '../../lib/section';

const foot: FillerQuestion = { parents: ['A356.0', '6061'], wallMm: 5, reTreated: false };
const verdict = (filler: string, change: Partial<FillerQuestion> = {}) =>
  fillerFor({ ...foot, ...change }).find((choice) => choice.filler === filler)!;

// Checked against the sources named in the reasons: practice columns of F. Armao, filler guides of the trade.
describe('fillerFor', () => {
  it('casting to tube, not re-treated: 4043 and 4047', () => {
    expect(
      fillerFor(foot)
        .filter((c) => c.verdict === 'suits')
        .map((c) => c.filler),
    ).toEqual(['4043', '4047']);
    expect(verdict('5356').verdict).toBe('not here');
    expect(verdict('4043').weldMetalMPa).toBe(170);
  });
  it('fully re-treated: 4008 and 4010, never 5356', () => {
    expect(verdict('4008', { reTreated: true }).verdict).toBe('suits');
    expect(verdict('4010', { reTreated: true }).verdict).toBe('suits');
    expect(verdict('5356', { reTreated: true }).verdict).toBe('not here');
    expect(verdict('4008').verdict).toBe('with care');
  });
  it('6061 to 6061: 4043 by dilution up to about 10 mm, 4643 above', () => {
    const tubes: Partial<FillerQuestion> = { parents: ['6061', '6061'], reTreated: true };
    expect(verdict('4043', tubes).verdict).toBe('suits');
    expect(verdict('4043', { ...tubes, wallMm: 14 }).verdict).toBe('with care');
    expect(verdict('4643', { ...tubes, wallMm: 14 }).verdict).toBe('suits');
  });
  it('more than 3 % Mg not for long service above 65 °C, and silence is not kinder than saying so', () => {
    const tubes: Partial<FillerQuestion> = { parents: ['6061', '6061'] };
    expect(verdict('5356', { ...tubes, serviceC: 40 }).verdict).toBe('suits');
    expect(verdict('5356', { ...tubes, serviceC: 80 }).verdict).toBe('not here');
    expect(verdict('5356', tubes).verdict).toBe('with care');
    expect(verdict('5554', { ...tubes, serviceC: 80 }).verdict).toBe('suits');
  });
  it('silicon fillers stay off 5083, and a wall of 3 m is refused', () => {
    expect(verdict('4043', { parents: ['5083', '6061'] }).verdict).toBe('not here');
    expect(() => fillerFor({ ...foot, wallMm: 3000 })).toThrow(/wallMm/);
  });
});
