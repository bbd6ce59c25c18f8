import { describe, expect, it } from 'vitest';
import { judge, type Verdict } from '../../../lib/decision';
import { weldCycle } from '../../../lib/kinetics';
import { considerRecovery } from '../../../lib/planning';
import { csv, judged, pass, USUAL } from '../logs';

const TUBE = { alloy: '6061', temper: 'T6' } as const;
/** A casting that peaks at one temperature beside a tube that peaks at another. */
const castAndTube = (castC: number, tubeC: number): Verdict =>
  judged(csv({ Block: pass(30, castC), Tube: pass(30, tubeC) }, { toS: 600 }), {
    byChannel: { Tube: TUBE },
    part: {},
  });

describe('the action', () => {
  it('says to use a casting that kept its temper, and to design the tube as welded', () => {
    const { verdict, action } = castAndTube(110, 360);
    // The word of the verdict counts every place; that of the action does not take a soft tube for the casting's loss.
    expect(verdict).toBe('lost');
    expect(action.word).toBe('kept');
    expect(action.headline).toBe('Use it, with as-welded strength at Tube');
    // EN 1999-1-1:2007 table 3.2, 6061-T6: 115 MPa in the zone for MIG, times 0.8 for TIG.
    expect(action.asWelded[0]!.proofMPa).toBe(92);
    expect(action.asWelded[0]!.sentence).toContain('Design with as-welded strength here: 92 MPa');
    expect(action.place).toBe('Block');
    expect(action.ways).toEqual([]);
  });

  it('counts a tube that is all there is, and one softer than the code has it', () => {
    const alone = judge(weldCycle({ peakC: 360, nearPeakS: 5 }), { ...TUBE, attachment: 'welded wires' });
    expect(alone.action.headline).toBe('Do not use it as it is');
    // Every welded tube is so soft: whoever designs for that is told that it is no softer.
    expect(alone.action.now.join()).toMatch(
      /does not count on the temper beside the weld: .*as-welded strength here: 92 MPa/,
    );
    const alonePartlyBurnt = judge(weldCycle({ peakC: 620, nearPeakS: 5 }), {
      ...TUBE,
      attachment: 'welded wires',
    });
    expect(alonePartlyBurnt.action.now.join()).not.toContain('as-welded');
    const burnt = castAndTube(110, 620);
    expect(burnt.action.asWelded).toEqual([]);
    expect(burnt.action.word).toBe('lost');
    expect(burnt.action.place).toBe('Tube');
  });

  it('says not to use a casting that lost its temper, with the ways to go on and what stands against each', () => {
    const { action } = castAndTube(480, 110);
    expect(action.headline).toBe('Do not use it as it is');
    expect(action.reason).toMatch(/^Block decides\. .*the chance that it keeps the 90 % you asked for is/);
    expect(action.ways.map(({ kind }) => kind)).toEqual([
      'accept',
      'rest',
      'age again',
      'full treatment',
      'scrap',
    ]);
    expect(action.ways[2]!.askFirst.join()).toMatch(/filler/i);
    expect(action.ways.every(({ kind, ultimateKeptFraction }) => kind && ultimateKeptFraction === null)).toBe(
      true,
    );
  });

  it('answers the ways to go on as considerRecovery does of the same heat', () => {
    const heat = weldCycle({ peakC: 480, nearPeakS: 5 });
    const { action, channels } = judge(heat, { ...USUAL, part: {} });
    const alone = considerRecovery(channels[0]!.exposure, { alloy: 'A356.0', temper: 'T6' });
    for (const [k, option] of alone.entries()) {
      const { low, nominal, high } = action.ways[k]!.yieldKeptFraction!;
      // Equal draws give equal numbers; the verdict may have taken more of them: 0.01 is three times their scatter.
      expect(Math.abs(nominal - option.yieldKeptFraction.nominal)).toBeLessThan(0.01);
      expect(low).toBeLessThanOrEqual(high);
      expect(action.ways[k]!.name).toBe(option.name);
    }
    expect(action.ways[0]!.chanceKept).toBe(channels[0]!.chanceKept);
  });

  it('says what to measure, with which number, and what a bar says against a cold one', () => {
    const { action, channels } = judge(weldCycle({ peakC: 300, nearPeakS: 20 }), USUAL);
    expect(channels[0]!.verdict).toBe('uncertain');
    expect(action.headline).toBe('Measure first');
    expect(action.now.join('\n')).toMatch(/Brinell reading/);
    expect(action.now.join('\n')).toMatch(/\d tensile readings? .*\d+ MPa or more clears it/);
    expect(action.now.join('\n')).toMatch(/to pass lost metal/);
  });
});
