import { describe, expect, it, vi } from 'vitest';
import { shownIn } from '../../lib/figure';
import { formatStress, formatTemp } from '../../lib/quantity';
import { fc } from '../setup/fc';
import { metricAlone } from '../setup/metricAlone';

/** What is printed while `act` runs. */
function printed(act: () => void): string {
  const write = vi.spyOn(process.stdout, 'write').mockReturnValue(true);
  try {
    act();
    return write.mock.calls.map(([text]) => String(text)).join('');
  } finally {
    write.mockRestore();
  }
}

const log = { channels: [{ name: 'TC1 block 12 mm', history: { tempC: Float64Array.of(20, 30) } }] };

describe('what a notebook shows', () => {
  it('is as it was found in metric units', () => {
    expect(printed(() => shownIn('metric', log).say('12 mm', 'at 227 °C (440 °F)'))).toBe(
      '12 mm\nat 227 °C (440 °F)\n',
    );
  });

  it('has °F and in first in US units, and names as people gave them', () => {
    const { say, showTable } = shownIn('us', log);
    expect(printed(() => say('TC1 block 12 mm is 12 mm off, at 227 °C (440 °F)'))).toBe(
      'TC1 block 12 mm is 0.47 in (12 mm) off, at 440 °F (227 °C)\n',
    );
    const table = printed(() =>
      showTable([{ Probe: 'TC1 block 12 mm', 'Within 3 mm': '207 MPa', Passes: 4 }]),
    );
    expect(table).toMatch(
      /^Probe +Within 0\.12 in \(3 mm\) +Passes\n.*\nTC1 block 12 mm +30\.0 ksi \(207 MPa\) +4\n$/,
    );
  });

  it('keeps every text of a job file, its keys too, but no name that is only a quantity', () => {
    const job = { said: { probes: { 'lug 25 mm': { note: 'beside the 6 mm bolt' } }, wall: '8 mm' } };
    expect(printed(() => shownIn('us', job).say('lug 25 mm, beside the 6 mm bolt, wall 8 mm'))).toBe(
      'lug 25 mm, beside the 6 mm bolt, wall 0.31 in (8 mm)\n',
    );
  });

  it('leaves no °C, mm or MPa alone, whatever the numbers', () => {
    fc.assert(
      fc.property(fc.integer({ min: -40, max: 700 }), fc.integer({ min: 1, max: 900 }), (tempC, n) => {
        const text = `${formatTemp(tempC)}, ${formatStress(n)}, ${n} mm (${n} to ${n + 1}), ±${n} °C, held at ${tempC} and ${n} °C`;
        const us = printed(() => shownIn('us').say(text));
        expect(metricAlone(us)).toEqual([]);
        expect(metricAlone(text)).not.toEqual([]);
      }),
    );
  });

  it('refuses units it does not know', () => {
    expect(() => shownIn('imperial' as 'us')).toThrow(/Found: "imperial"\. Expected: metric or us/);
  });
});
