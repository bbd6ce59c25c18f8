import { describe, expect, it } from 'vitest';
import { placementSentence } from '../../lib/decision';
import type { Calibration } from '../../lib/heatflow';
import { thermalHistory } from '../../lib/history';
import { probePlacement, softZone, softZoneSentence } from '../../lib/planning';
import { judged } from '../../lib/quantity';
import {
  attachmentRows,
  calibrationRows,
  codeExtentRow,
  misfitRows,
  placementRows,
  softReachRows,
  softZoneRows,
} from '../../lib/report/heatRows';
import { hazExtent, hazExtentUs } from '../../lib/section';

const heated = (peakC: number) => thermalHistory([0, 10, 60], [20, peakC, 20]);
const places = [6, 12, 18, 24, 30].map((distanceMm) => ({
  distanceMm,
  history: heated(560 - 15 * distanceMm),
}));
const zone = softZone(places, { alloy: '6061', temper: 'T6', ambientC: 20 });

describe('rows of a soft zone', () => {
  it('have a line for each place and for each treatment, in words', () => {
    expect(softZoneRows(zone)).toHaveLength(5);
    expect(softZoneRows(zone)[0]).toMatchObject({ Distance: '6 mm', Peak: '470 °C (878 °F)' });
    expect(softReachRows(zone).map(({ Treatment }) => Treatment)).toEqual([
      'As welded',
      'After three weeks',
      'Aged again 8 h at 177 °C (351 °F)',
    ]);
  });

  it('are summed up in a sentence', () => {
    expect(softZoneSentence(zone)).toMatch(
      /^6061-T6 keeps less than 90 % of its yield up to \d+ mm from the weld's centre line \(\d+ to \d+ mm\)\. Aged again 8 h at 177 °C \(351 °F\), its weakest place keeps \d+ % \(\d+–\d+ %\), \d+ mm out\.$/,
    );
    const cold = softZone(
      [1, 2].map((mm) => ({ distanceMm: mm, history: heated(90) })),
      {
        alloy: '6061',
        temper: 'T6',
        ambientC: 20,
      },
    );
    expect(softZoneSentence(cold)).toContain('keeps 90 % of its yield everywhere');
    const short = softZone(places.slice(0, 2), { alloy: '6061', temper: 'T6', ambientC: 20 });
    expect(softZoneSentence(short)).toContain('to more than 12 mm');
    expect(softReachRows(short)[0]!['At most']).toBe('beyond 12 mm');
  });
});

describe('rows of a placement', () => {
  const probe = { limitC: 230, ambientC: 20 };
  const placement = probePlacement(places, {
    ...probe,
    alloy: '6061',
    temper: 'T6',
    critical: places[2]!.history,
    attachment: 'peened hole',
  });

  it('say what is hidden in words and not in signs', () => {
    const rows = placementRows(placement);
    expect(rows[1]!['Against the metal that matters']).toBe('90 °C (162 °F) hotter');
    expect(rows[3]!['Against the metal that matters']).toBe('90 °C (162 °F) cooler');
    expect(rows[2]!.Peaks).toBe('with it');
  });

  it('stop the earlier the looser the fixing', () => {
    const stops = attachmentRows(placement, probe).map((row) =>
      Number.parseInt(String(row['Stop when it reads']), 10),
    );
    expect(stops).toHaveLength(7);
    expect(stops[0]!).toBeGreaterThan(stops[6]!);
    expect(stops).toEqual([...stops].sort((a, b) => b - a));
  });

  it('are summed up in a sentence that says where, how often and when to stop', () => {
    expect(placementSentence(placement)).toMatch(
      /^The metal that matters will reach 290 °C \(554 °F\) as planned, above its limit of 230 °C \(446 °F\)\. .* Put the probe \d+ mm from .* read it every .* Stop at a reading of 2\d\d °C/,
    );
  });
});

describe('rows of a fit', () => {
  const fit: Calibration<'k' | 'h'> = {
    names: ['k', 'h'],
    values: { k: judged(0.5512, [0.54, 0.56], '1', []), h: judged(12.34, [12, 13], 'W/m²K', []) },
    standardErrors: { k: 0.00512, h: 0.321 },
    correlation: [
      [1, -0.976],
      [-0.976, 1],
    ],
    clockOffsetsS: [],
    channels: [],
    passes: [],
    warnings: [],
    converged: true,
    modelRuns: 9,
  };

  it('name each quantity, its error and how it goes together with the others', () => {
    const unknown = { start: 0.6, low: 0.4, high: 0.8 };
    const rows = calibrationRows(fit, {
      k: { ...unknown, label: 'arc efficiency' },
      h: { start: 8, low: 2, high: 30, unit: 'W/m²K' },
    });
    expect(rows).toEqual([
      {
        Fitted: 'arc efficiency',
        Value: '0.5512',
        'Standard error': '0.0051',
        'Looked for between': '0.4 and 0.8',
        'r with arc efficiency': '',
        'r with h': '-0.98',
      },
      {
        Fitted: 'h',
        Value: '12.34 W/m²K',
        'Standard error': '0.32 W/m²K',
        'Looked for between': '2 and 30 W/m²K',
        'r with arc efficiency': '-0.98',
        'r with h': '',
      },
    ]);
    expect(misfitRows(fit)).toEqual([]);
  });
});

describe('codeExtentRow', () => {
  it('shows the extent of the code with its reason, or plainly that there is none', () => {
    expect(codeExtentRow('US practice', hazExtentUs('6061'))).toMatchObject({ Extent: '25.4 mm' });
    const casting = hazExtent({ alloy: 'A356.0', process: 'TIG', joint: 'butt', heatPathsMm: [8, 8] });
    expect(codeExtentRow('EN 1999-1-1', casting)).toMatchObject({
      Extent: 'no answer',
      Why: expect.stringContaining('gives no extent'),
    });
  });
});
