import { describe, expect, it } from 'vitest';
import { readLog } from '../../../lib/log';
import { channel, lines, rows, temps, weldC } from '../write';

const F = (tempC: number) => (tempC * 1.8 + 32).toFixed(1);
const C = (tempC: number) => tempC.toFixed(1);
/** Half of a tenth of a degree Fahrenheit. */
const WITHIN_C = 0.05;

describe('columns that hold the unit of their rows', () => {
  const own = (head: string, row: (t: number) => string) => readLog(lines(head, rows(120, row)));

  it('give each channel before them its own', () => {
    const log = own('Time (s),TC1,Unit 1,TC2,Unit 2', (t) => `${t},${F(weldC(t))},F,${C(weldC(t, 90))},C`);
    expect(log.openReadings).toEqual([]);
    for (const [k, riseC] of [180, 90].entries())
      for (const [t, tempC] of temps(log, k).entries())
        expect(Math.abs(tempC - weldC(t, riseC))).toBeLessThanOrEqual(WITHIN_C);
  });

  it('give one to all channels where there is only one', () => {
    const log = own('Time (s),TC1,TC2,Unit', (t) => `${t},${F(weldC(t))},${F(weldC(t, 90))},°F`);
    expect(log.channels.map(({ sourceUnit }) => sourceUnit)).toEqual(['°F', '°F']);
  });

  it('are refused where they differ and stand beside no channel', () =>
    expect(() =>
      own('Time (s),TC1,TC2,Unit 1,Unit 2', (t) => `${t},${F(weldC(t))},${C(weldC(t, 90))},F,C`),
    ).toThrow(/Which channel each column of units belongs to.*option unit/));

  it('leave it open where the header says another', () => {
    const log = own('Time (s),TC1 (°C),Unit', (t) => `${t},${F(weldC(t))},F`);
    expect(log.openReadings.map(({ option, because }) => [option, because])).toEqual([
      ['unit', '"TC1 (°C)" says °C, and "Unit" says °F.'],
    ]);
  });
});

describe('a lone channel whose unit changes in mid-file', () => {
  /** A slow fall from 255 °C, so that only the change of unit jumps. */
  const cooling = (t: number) => 25 + 230 * Math.exp(-t / 400);

  it('from °F to °C is refused: hot metal does not fall so', () =>
    expect(() =>
      readLog(
        lines(
          'Time (s),TC1 (°F)',
          rows(200, (t) => `${t},${t < 60 ? F(cooling(t)) : C(cooling(t))}`),
        ),
      ),
    ).toThrow(/row 62.*changes in mid-file|changes in mid-file.*row 62/s));

  it('is read when you say the unit, as the part may have jumped', () => {
    const jump = lines(
      'Time (s),TC1 (°F)',
      rows(200, (t) => `${t},${t < 60 ? F(cooling(t)) : C(cooling(t))}`),
    );
    expect(channel(readLog(jump, { unit: '°F' }), 'TC1').history.timeS.length).toBeGreaterThan(190);
  });

  it('is not seen in a probe that lets go of the part', () =>
    expect(() =>
      readLog(
        lines(
          'Time (s),TC1 (°C)',
          rows(200, (t) => `${t},${t < 60 ? C(75) : C(24)}`),
        ),
      ),
    ).not.toThrow());
});

it('a second header with another unit is refused', () =>
  expect(() =>
    readLog(
      lines(
        ...['Time (s),TC1 (°C),TC2 (°C)', ...rows(60, (t) => `${t},${C(weldC(t))},${C(weldC(t, 90))}`)],
        ...[
          'Time (s),TC1 (°F),TC2 (°C)',
          ...rows(60, (t) => `${t + 60},${F(weldC(t + 60))},${C(weldC(t + 60, 90))}`),
        ],
      ),
    ),
  ).toThrow(/row 62, column "TC1 \(°C\)".*changes in mid-file.*"TC1 \(°F\)" in a second header/s));
