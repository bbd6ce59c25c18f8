import { describe, expect, it } from 'vitest';
import { isothermal } from '../../../lib/history';
import { weldCycle } from '../../../lib/kinetics';
import { considerRecovery } from '../../../lib/planning';
import { strengthAfter } from '../../../lib/strength';

/** Published figures after welding. None is a fitted row: they check what the members make of weld, rest and re-ageing. */
const DAY_S = 86_400;
const PEAKS_C = [300, 330, 360, 390, 420, 450, 480, 510];
const weld = (peakC: number) => weldCycle({ peakC, nearPeakS: 2 });
const rest = isothermal(20, 21 * DAY_S);
type Soak = ReturnType<typeof isothermal>;

const kept = (alloy: string, temper: string, ...heats: readonly [Soak, ...Soak[]]) =>
  strengthAfter(
    heats[heats.length - 1]!,
    { alloy, temper },
    { earlier: heats.slice(0, -1), draws: 200, endOnly: true },
  ).yieldKeptFraction;
const weakest = (of: (peakC: number) => number): { readonly peakC: number; readonly kept: number } =>
  PEAKS_C.map((peakC) => ({ peakC, kept: of(peakC) })).reduce((a, b) => (b.kept < a.kept ? b : a));

describe('6061-T6', () => {
  // M.W. Dewan et al., J. Manuf. Sci. Eng. 137 (2015) 051027, abstract: yield of defect-free GTA joints 34 % of the plate's;
  // one series, 0.08.
  it('as welded: the weakest place is as weak as a joint', () => {
    const { peakC } = weakest((at) => kept('6061', 'T6', weld(at)).nominal);
    const { low, high } = kept('6061', 'T6', weld(peakC));
    expect(low - 0.08).toBeLessThan(0.34);
    expect(high + 0.08).toBeGreaterThan(0.34);
  });

  // F. Armao, How to age aluminum when welding in T6: 1 h at 204 °C or 4 h at 177 °C raises a T6 weldment by 1 to 2 ksi
  // (7 to 14 MPa) and does not harm the plate. As a share of 276 MPa 0.025 to 0.05; told roundly, twice that.
  // Known difference: the members take the weakest place 0.03 down (it moves to a peak of 420 °C: what clustered on the shelf
  // reverts, coarse survivors catch the solute), to the careful side; the joint's figure is tensile, and of the whole joint.
  it.each([
    [204, 3600],
    [177, 14_400],
  ])('re-aged at %d °C for %d s: the joint gains little, the plate loses little', (tempC, timeS) => {
    const ageing = isothermal(tempC, timeS);
    const before = weakest((at) => kept('6061', 'T6', weld(at), rest).nominal);
    const after = weakest((at) => kept('6061', 'T6', weld(at), rest, ageing).nominal);
    expect(after.kept - before.kept).toBeLessThan(0.1);
    expect(after.kept - before.kept).toBeGreaterThan(-0.05);
    expect(kept('6061', 'T6', ageing).nominal).toBeGreaterThan(0.93);
  });
});

describe('6063-T6', () => {
  // Friction-stir welds of 6063 aged 12 h at 170 °C (Sato et al. 1999, abstract): the dissolved zone recovers strongly, the
  // coarsened one barely responds, and the minimum moves there.
  it('re-aged: what dissolved comes back, what coarsened does not', () => {
    const ageing = isothermal(170, 43_200);
    const gain = (at: number): number =>
      kept('6063', 'T6', weld(at), rest, ageing).nominal - kept('6063', 'T6', weld(at), rest).nominal;
    expect(gain(510)).toBeGreaterThan(0.25);
    expect(gain(330)).toBeLessThan(0.5 * gain(510));
    expect(weakest((at) => kept('6063', 'T6', weld(at), rest, ageing).nominal).peakC).toBeLessThan(450);
  });
});

describe('repair welds of castings', () => {
  // A357 (ZL114A), MIG repair of a large casting, then aged only: the zone beside the weld loses less than 10 % (Li D.C. et
  // al., Special Casting & Nonferrous Alloys 2001 no. 5, abstract). The temper before the weld is not told; had it been
  // aged before, softened metal would not come back, so it was welded unaged: a bound for the 95 % line.
  it('welded unaged and aged after: at least 0.9 of metal that saw no weld can be had', () => {
    const ageing = isothermal(165, 36_000);
    const none = kept('A356.0', 'T4', ageing);
    for (const peakC of PEAKS_C)
      expect(kept('A356.0', 'T4', weld(peakC), ageing).high / none.high).toBeGreaterThan(0.9);
  });

  // E357-T6 sand castings with and without a process weld, heat treated after it: 308.4 ± 3.3 and 306.9 ± 4.0 MPa (AFS
  // Trans. 2013, 13-1210, table 2): a new heat treatment takes back everything, 1.005 ± 0.017 of it.
  it('heat treated anew: what an unwelded casting has lies in the band', () => {
    const { low, high } = considerRecovery(weld(420), { alloy: 'A356.0', temper: 'T6' }).at(
      -1,
    )!.yieldKeptFraction;
    expect(low).toBeLessThan(308.4 / 306.9);
    expect(high).toBeGreaterThan(308.4 / 306.9);
  });
});
