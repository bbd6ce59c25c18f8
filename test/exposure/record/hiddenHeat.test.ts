import { describe, expect, it } from 'vitest';
import { probeExposure } from '../../../lib/exposure';
import { type ThermalHistory, thermalHistory } from '../../../lib/history';

/** A trace read every `everyS` from a function of time. */
const trace = (fromS: number, toS: number, everyS: number, at: (t: number) => number): ThermalHistory => {
  const timeS = Float64Array.from(
    { length: Math.floor((toS - fromS) / everyS) + 1 },
    (_, i) => fromS + i * everyS,
  );
  return thermalHistory(timeS, timeS.map(at));
};
/** Up at 12 K/s to `peakC` and back with a time constant, as a probe some centimetres from an arc sees it. */
const pass =
  (startS: number, peakC: number, tauS = 60) =>
  (t: number) => {
    const topS = startS + (peakC - 22) / 12;
    if (t <= startS) return 22;
    return t < topS ? 22 + 12 * (t - startS) : 22 + (peakC - 22) * Math.exp(-(t - topS) / tauS);
  };
const exposureOf = (
  history: ThermalHistory,
  neighbours: readonly ThermalHistory[] = [],
  more: { readonly isOven?: boolean; readonly earlierIsKnown?: boolean } = {},
) => {
  const all = [history, ...neighbours];
  return probeExposure({
    history,
    neighbours,
    probe: { ambientC: 22, attachment: 'welded wires', isOven: more.isOven },
    spanS: [
      Math.min(...all.map(({ timeS }) => timeS[0]!)),
      Math.max(...all.map(({ timeS }) => timeS[timeS.length - 1]!)),
    ],
    earlierIsKnown: more.earlierIsKnown,
    meltsFromC: 555,
  });
};
/** Without the samples between two times, which become a gap. */
const without = ({ timeS, tempC }: ThermalHistory, fromS: number, toS: number): ThermalHistory => {
  const keep = [...timeS.keys()].filter((i) => timeS[i]! <= fromS || timeS[i]! >= toS);
  const last = keep.filter((i) => timeS[i]! <= fromS).length - 1;
  return thermalHistory(
    keep.map((i) => timeS[i]!),
    keep.map((i) => tempC[i]!),
    [last],
  );
};
const worstOfGap = (exposure: ReturnType<typeof exposureOf>): number => {
  const gap = exposure.doubts.find(({ kind }) => kind === 'gap');
  if (!gap || !('shiftK' in gap)) return Number.NEGATIVE_INFINITY;
  return Math.max(
    ...gap.shiftK.map((k, i) => (k > 0 ? exposure.history.tempC[i]! + k : Number.NEGATIVE_INFINITY)),
  );
};

describe('heat that a record may hide', () => {
  it('a whole, cool record hides nothing', () => {
    expect(exposureOf(trace(0, 1200, 1, (t) => 22 + 0.3 * Math.sin(t))).blind).toEqual([]);
  });

  it('a whole weld with its cooling hides nothing', () => {
    expect(exposureOf(trace(0, 900, 1, pass(60, 210))).blind).toEqual([]);
  });

  it('a start at 149 °C that falls: what was before is not recorded', () => {
    const { blind } = exposureOf(trace(0, 900, 1, (t) => 22 + 127 * Math.exp(-t / 300)));
    expect(blind).toHaveLength(1);
    expect(blind[0]!.because).toMatch(/starts at 149 °C .*falls/);
  });

  it('the same start after a heat that the user gave hides nothing', () => {
    const warm = trace(0, 900, 1, (t) => 22 + 127 * Math.exp(-t / 300));
    expect(exposureOf(warm, [], { earlierIsKnown: true }).blind).toEqual([]);
  });

  it('an end at 250 °C that does not fall: what came after is not recorded', () => {
    const { blind } = exposureOf(trace(0, 600, 1, (t) => Math.min(250, 22 + t)));
    expect(blind[0]!.because).toMatch(/ends at 250 °C .*does not fall/);
  });

  it('an end at 180 °C that falls: the cooling to come is counted, at worst three times as slow', () => {
    const tauS = 200;
    const whole = (t: number) => 22 + 228 * Math.exp(-t / tauS);
    const cut = trace(0, Math.round(tauS * Math.log(228 / 158)), 1, whole);
    const { blind, history, doubts, because } = exposureOf(cut, [], { earlierIsKnown: true });
    expect(blind).toEqual([]);
    expect(because.join(' ')).toMatch(/taken to cool on/);
    expect(history.tempC.at(-1)!).toBeLessThan(30);
    // A time constant later the tail stands at 1/e, and at the cube root of it at worst.
    const at = history.timeS.findIndex((t) => t >= cut.timeS.at(-1)! + tauS);
    const t = history.timeS[at]! - cut.timeS.at(-1)!;
    const tail = doubts.find(({ kind }) => kind === 'cooling to come')!;
    // The slope of the last minute is that of its middle: a tenth less than the slope at the end.
    expect(Math.abs(history.tempC[at]! - (22 + 158 * Math.exp(-t / tauS)))).toBeLessThan(
      0.16 * 158 * Math.exp(-1),
    );
    const rise = cut.tempC.at(-1)! - 22;
    if (!('shiftK' in tail)) throw new Error('the tail is a shift');
    expect(history.tempC[at]! + tail.shiftK[at]! - 22).toBeCloseTo(
      rise * Math.cbrt((history.tempC[at]! - 22) / rise),
      6,
    );
  });

  it('a slow oven that still rises at the end', () => {
    const { blind } = exposureOf(
      trace(0, 7200, 10, (t) => 22 + 0.025 * t),
      [],
      { isOven: true },
    );
    expect(blind[0]!.because).toMatch(/still rising/);
  });

  it('a 420 °C spike that a reading a minute does not see, unless the log is an oven’s', () => {
    // Spike between two readings: the readings themselves are those of an ordinary warm-up to 60 °C.
    const readings = trace(0, 1800, 60, (t) => 22 + 38 * (1 - Math.exp(-t / 400)));
    expect(exposureOf(readings).blind[0]!.because).toMatch(/1 min apart|60 s apart/);
    expect(exposureOf(readings, [], { isOven: true }).blind).toEqual([]);
  });

  it('slow readings that stayed cool: a short burst on thick metal is gone within a minute', () => {
    const cool = trace(0, 86_400, 60, (t) => 22 + Math.sin(t / 9000));
    expect(exposureOf(cool).blind).toHaveLength(1);
    expect(exposureOf(cool, [], { isOven: true }).blind).toEqual([]);
  });

  it('an interval that changes to a minute in mid-file', () => {
    const quick = trace(0, 300, 1, pass(30, 200));
    const slow = trace(360, 1500, 60, pass(30, 200));
    const both = thermalHistory([...quick.timeS, ...slow.timeS], [...quick.tempC, ...slow.tempC]);
    const { blind } = exposureOf(both);
    expect(blind).toHaveLength(1);
    expect(blind[0]!.fromS).toBe(300);
  });

  it('a weld lost in a five-minute gap, with nobody else to see it', () => {
    const whole = trace(0, 1200, 1, pass(400, 400, 40));
    const { blind } = exposureOf(without(whole, 390, 690));
    expect(blind).toHaveLength(1);
    expect(blind[0]!.because).toMatch(/5 min/);
  });

  it('the same gap while a neighbour stayed cool all along', () => {
    const lost = without(
      trace(0, 1200, 1, () => 24),
      390,
      690,
    );
    const exposure = exposureOf(lost, [trace(0, 1200, 1, () => 23)]);
    expect(exposure.blind).toEqual([]);
    expect(worstOfGap(exposure)).toBeLessThan(60);
  });

  it('a neighbour that warms only later bounds a gap by what it shows then', () => {
    const lost = without(
      trace(0, 1200, 1, () => 24),
      390,
      480,
    );
    const worst = (neighbour: (t: number) => number) =>
      worstOfGap(exposureOf(lost, [trace(0, 1200, 1, neighbour)]));
    const still = worst(() => 23);
    // 40 s after the gap's end, as heat takes through 80 mm and more; a warming minutes later is another heat.
    expect(worst((t) => (t < 500 ? 23 : 23 + 40 * Math.exp(-(((t - 520) / 20) ** 2))))).toBeGreaterThan(
      still + 40,
    );
    expect(worst((t) => (t < 800 ? 23 : 23 + 40 * Math.exp(-(((t - 900) / 20) ** 2))))).toBeCloseTo(still, 6);
  });

  it('a neighbour that lives for two seconds covers two seconds', () => {
    const lost = without(
      trace(0, 1200, 1, () => 24),
      390,
      810,
    );
    expect(exposureOf(lost, [trace(500, 502, 1, () => 23)]).blind).toHaveLength(1);
  });

  it('a dropout of three seconds in a cool job is forgiven, in a hot one it is a doubt', () => {
    const cool = exposureOf(
      without(
        trace(0, 600, 1, () => 24),
        300,
        303,
      ),
    );
    expect(cool.blind).toEqual([]);
    // At most 8 K/s back down within 3 s, from a reading of 24 °C.
    expect(worstOfGap(cool)).toBeLessThan(24 + 8 * 3);
    const hot = exposureOf(without(trace(0, 900, 1, pass(60, 300)), 82, 85));
    expect(hot.blind).toEqual([]);
    expect(worstOfGap(hot)).toBeGreaterThan(300);
  });

  it('a probe that stopped while the others were hot', () => {
    const hot = trace(0, 900, 1, pass(60, 300));
    const gone = trace(0, 60, 1, () => 22);
    expect(exposureOf(gone, [hot]).blind[0]!.because).toMatch(/no trusted reading/);
  });
});
