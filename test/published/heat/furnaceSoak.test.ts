import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkChart, type Schedule } from '../../../lib/heattreat';
import { readLog } from '../../../lib/log';

interface Chart {
  readonly id: string;
  readonly setC: number;
  readonly toleranceC: number;
  readonly timeMin: readonly number[];
  readonly sensorsC: readonly (readonly number[])[];
  readonly expected: Readonly<Record<string, number | number[][] | string | boolean>>;
}
const { charts, source }: { charts: Chart[]; source: string } = JSON.parse(
  readFileSync(path.resolve('data/published/furnace-soak.json'), 'utf8'),
);

function checked({ setC, toleranceC, timeMin, sensorsC }: Chart, leastH: number) {
  const schedule: Schedule = {
    name: 'worked example',
    alloy: 'A356.0',
    temper: 'T4',
    product: 'worked example',
    edition: source,
    startsFrom: 'any',
    solution: {
      setC,
      lowC: setC - toleranceC,
      highC: setC + toleranceC,
      leastH,
      mostH: null,
      source,
      known: 'derived',
    },
    ages: [],
  };
  const rows = timeMin.map((min, i) => [min * 60, ...sensorsC[i]!].join(','));
  const text = ['Time (s),Load 1 (°C),Load 2 (°C)', ...rows].join('\n');
  const log = readLog(new TextEncoder().encode(`${text}\n`), { limits: { gapS: 3600 } });
  const { requirements } = checkChart(log, schedule);
  const named = (name: string) => requirements.find((one) => one.name === `Solution: ${name}`)!;
  return { soak: named('time in the band'), upper: named('upper limit') };
}

// Printed to 0.001 min; half a unit of the last place is 0.03 s.
const PRINTED_S = 0.03;

describe('soak from the coldest load sensor, worked charts (furnace-soak.json)', () => {
  it('S1: one run of 64.515 min from minute 36', () => {
    const { soak, upper } = checked(charts[0]!, 64.5 / 60);
    expect(soak.verdict).toBe('met');
    expect(Math.abs(soak.measured!.nominal - 60 * 64.515)).toBeLessThan(PRINTED_S);
    expect(Math.abs(soak.atS! - 60 * 36)).toBeLessThan(PRINTED_S);
    expect(upper.found).toContain('540.0 °C');
    // The chart ends at 470 °C, on its way down: the upper limit is broken nowhere, but it is cut.
    expect(upper.verdict).not.toBe('not met');
    expect(checked(charts[0]!, 64.6 / 60).soak.verdict).toBe('not met');
  });

  it('S2: a dip below the limit parts the soak; the longest run counts, the sum is told', () => {
    const { soak } = checked(charts[1]!, 49.4 / 60);
    expect(soak.verdict).toBe('met');
    expect(Math.abs(soak.measured!.nominal - 60 * 49.432)).toBeLessThan(PRINTED_S);
    expect(Math.abs(soak.atS! - 60 * 48.75)).toBeLessThan(PRINTED_S);
    expect(soak.found).toMatch(/1 h 9 min in 2 runs together, a dip to 518 °C/);
    // 69 min in all would do for 60 min, one run of 49 min does not.
    expect(checked(charts[1]!, 1).soak.verdict).toBe('not met');
  });
});
