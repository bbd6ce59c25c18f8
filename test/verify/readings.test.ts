import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { judge } from '../../lib/decision';
import { weldCycle } from '../../lib/kinetics';
import { decisionRisks, evenSpread, normalQuantile, weightedQuantiles } from '../../lib/statistics';
import {
  beforeMeasuring,
  brinellOfVickers,
  checkReadings,
  type Reading,
  readingWeights,
  rockwellOfVickers,
} from '../../lib/verify';

const COUNT = 4000;
/** Draws of a normal share kept, on a part of one yield: the closed form is known. */
const place = (mean: number, sd: number, alloy = '6061', startMPa = 276) => ({
  name: 'TC1',
  card: loadAlloy(alloy),
  draws: {
    yieldKept: Float64Array.from({ length: COUNT }, (_, i) => mean + sd * normalQuantile(evenSpread(i, 3))),
    startYieldMPa: new Float64Array(COUNT).fill(startMPa),
  },
});
const reading = (more: Partial<Reading>): Reading => ({ channel: 'TC1', kind: 'yield', value: 240, ...more });
const posterior = (readings: Reading[], of = place(0.9, 0.05)) => {
  const { weights } = readingWeights(readings, [of]);
  const [low, median, high] = weightedQuantiles(of.draws.yieldKept, [0.05, 0.5, 0.95], weights);
  return { median: median!, sd: (high! - low!) / (2 * 1.6449) };
};

describe('readingWeights', () => {
  it('updates a normal as the closed form does: precision-weighted mean, 1/√(1/σ² + 1/u²)', () => {
    const [sigma, u] = [0.05 * 276, 8];
    const { median, sd } = posterior([reading({ value: 235, standardUncertainty: u })]);
    const precision = 1 / sigma ** 2 + 1 / u ** 2;
    // 4,000 draws, about 2,000 of them effective: 3 σ/√2000 is 0.07 σ.
    expect(Math.abs(276 * median - (0.9 * 276 * sigma ** -2 + 235 * u ** -2) / precision)).toBeLessThan(0.5);
    expect(Math.abs(276 * sd - 1 / Math.sqrt(precision))).toBeLessThan(0.5);
  });

  it('averages repeatability, but not what the relation of the instrument is off by', () => {
    const many = Array.from({ length: 9 }, () => reading({ kind: 'vickers', value: 98 }));
    // HV is good to 5 for the relation, 15 MPa: nine readings leave nearly all of that.
    const relation = 5 / 0.33 / 276;
    const { sd } = posterior(many, place(0.9, 0.2));
    expect(sd).toBeGreaterThan(0.9 * relation);
    expect(sd).toBeLessThan(1.15 * Math.hypot(relation, 3 / 3 / 0.33 / 276));
  });

  it('says less without cold metal to compare with', () => {
    const own = posterior([reading({ kind: 'vickers', value: 98 })], place(0.9, 0.2)).sd;
    const compared = posterior([reading({ kind: 'vickers', value: 98, reference: 107 })], place(0.9, 0.2)).sd;
    expect(compared).toBeLessThan(own);
  });

  it('reads a casting against cold metal of it: 73 HB beside 80 HB is 80 % of the yield', () => {
    const cast = place(0.9, 0.2, 'A356.0', 207);
    const { median } = posterior([reading({ kind: 'brinell', value: 73, reference: 80 })], cast);
    // (73 − 45)/(80 − 45), pulled a little to the middle of the draws.
    expect(Math.abs(median - 0.8)).toBeLessThan(0.05);
  });

  it('lets no reading speak that no source carries', () => {
    const cast = place(0.9, 0.2, 'A356.0', 207);
    for (const silent of [
      reading({ kind: 'brinell', value: 73 }),
      reading({ kind: 'conductivity', value: 43, reference: 39 }),
      reading({ kind: 'vickers', value: 90, reference: 95 }),
    ]) {
      const { weights, because } = readingWeights([silent], [cast]);
      expect(new Set(weights)).toEqual(new Set([1]));
      expect(because.join()).toMatch(/no chance|nothing by itself/);
    }
  });

  it('says when a reading contradicts the log', () => {
    expect(readingWeights([reading({ value: 150 })], [place(0.95, 0.02)]).contradicting[0]).toMatch(
      /The tensile reading says 150 MPa; log and metal let expect 25\d to 27\d MPa.*One of them is wrong/,
    );
    expect(readingWeights([reading({ value: 262 })], [place(0.95, 0.02)]).contradicting).toEqual([]);
    const swapped = reading({ kind: 'brinell', value: 82, reference: 66 });
    expect(readingWeights([swapped], [place(0.7, 0.02, 'A356.0', 207)]).contradicting[0]).toMatch(
      /were the two numbers swapped\?/,
    );
  });
});

describe('scales of hardness', () => {
  // ASTM E140 table 9, wrought aluminium, from memory: HB 10/500, HV, HRE.
  it.each([
    [100, 117, null],
    [90, 105, 94],
    [75, 86, 84],
    [60, 68, 70],
    [45, 50, 53],
  ])('%s HB is %s HV', (hb, hv, hre) => {
    // The recalled table follows HV = 1.2 HB − 3 within 2 HV.
    expect(Math.abs(brinellOfVickers(hv) - hb)).toBeLessThan(2 / 1.2 + 0.4);
    if (hre !== null) expect(rockwellOfVickers('HRE', hv)).toBe(hre);
  });
});

describe('beforeMeasuring', () => {
  it('names how many readings and which number would clear a tube', () => {
    const plan = beforeMeasuring(place(0.93, 0.05), { kind: 'vickers', reference: 107 }, 0.1);
    expect(plan.readings).toBeGreaterThan(0);
    expect(plan.clearsFrom!).toBeGreaterThan(plan.lostUpTo ?? 0);
    const mean = reading({ kind: 'vickers', value: plan.clearsFrom! + 0.5, reference: 107 });
    const u = (3 * Math.SQRT2) / Math.sqrt(plan.readings!);
    const { weights } = readingWeights([{ ...mean, standardUncertainty: u }], [place(0.93, 0.05)]);
    const kept = place(0.93, 0.05).draws.yieldKept;
    const chance =
      weights.reduce((sum, w, i) => sum + (kept[i]! >= 0.9 ? w : 0), 0) / weights.reduce((a, b) => a + b, 0);
    expect(chance).toBeGreaterThanOrEqual(0.95);
  });

  it('states the chances of a wrong word as the integrals of JCGM 106 give them', () => {
    // A normal prior and bars against a cold bar of 276 MPa: JCGM 106:2012, clause 9.5, eqs (19) and (20).
    const [mean, sd] = [0.92 * 276, 0.05 * 276];
    const plan = beforeMeasuring(place(0.92, 0.05), { kind: 'yield', reference: 276 }, 0.1);
    const parts = {
      mean,
      standardDeviation: sd,
      standardUncertainty: (4 * Math.SQRT2) / Math.sqrt(plan.readings!),
    };
    const accept = decisionRisks(parts, { lower: 0.9 * 276 }, { lower: plan.clearsFrom! });
    // 4,000 even draws hold a chance of a few hundredths within a twentieth of itself.
    expect(plan.falseAccept / accept.falseAccept).toBeGreaterThan(0.9);
    expect(plan.falseAccept / accept.falseAccept).toBeLessThan(1.1);
    const reject = decisionRisks(parts, { lower: 0.9 * 276 }, { lower: plan.lostUpTo! });
    expect(plan.falseReject / reject.falseReject).toBeGreaterThan(0.9);
    expect(plan.falseReject / reject.falseReject).toBeLessThan(1.1);
  });

  it('says when no number of readings of this instrument can', () => {
    // The rule of castings is good to 8 %: it cannot clear a tenth where the log is in doubt by a fifth.
    const plan = beforeMeasuring(place(0.85, 0.04, 'A356.0', 207), { kind: 'brinell', reference: 78 }, 0.1);
    expect(plan.readings).toBeNull();
    expect(plan.sentence).toMatch(/No number of Brinell readings can clear .*coupon/);
  });
});

describe('judge with readings', () => {
  const options = { alloy: '6061', temper: 'T6', attachment: 'welded wires' } as const;
  const heat = weldCycle({ peakC: 285, nearPeakS: 5 });
  const channel = 'history';

  it('is moved by what the bench says, either way', () => {
    const before = judge(heat, options).chanceKept!;
    const hard = judge(heat, { ...options, readings: [{ channel, kind: 'yield', value: 290 }] });
    const soft = judge(heat, { ...options, readings: [{ channel, kind: 'yield', value: 215 }] });
    expect(hard.chanceKept!).toBeGreaterThan(before);
    expect(soft.chanceKept!).toBeLessThan(before);
    expect(hard.readings!.effectiveDraws).toBeGreaterThan(100);
  });

  it.each([
    [{ channel, kind: 'brinell', value: 780 }, /off the scale.*780 HB/],
    [{ channel: 'TC9', kind: 'brinell', value: 78 }, /beside a probe that was not judged.*TC9/],
    [{ channel, kind: 'shore', value: 78 }, /kind there is not/],
    [{ channel, kind: 'brinell', valu: 78 }, /Did you mean "value"/],
  ])('refuses %j', (wrong, message) => {
    expect(() => checkReadings([wrong as unknown as Reading], [channel])).toThrow(message);
    expect(() => judge(heat, { ...options, readings: [wrong as unknown as Reading] })).toThrow(message);
  });
});
