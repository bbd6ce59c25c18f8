import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type JudgeOptions, judge, strengthSoFar } from '../../lib/decision';
import { thermalHistory } from '../../lib/history';
import { advanceMetal, membersHash, startOfMetal } from '../../lib/kinetics';
import { readLog, type ThermalLog } from '../../lib/log';
import { drawMetals, KEPT_FROM, type LotWeights, ROUTINE_DRAWS } from '../../lib/strength';
import { lotCard, lotOfCard } from '../../lib/verify';
import { inFull } from '../setup/extent';
import { fc } from '../setup/fc';

const log = readLog('data/demo/mast-foot-two-probes.csv');
const LOT = lotOfCard(lotCard(JSON.parse(readFileSync('data/demo/hinge-block-coupons.json', 'utf8'))));
const OPTIONS = { alloy: 'A356.0', temper: 'T6', attachment: 'peened hole' } as const;

function heatedBy(share: number, untilS = Number.POSITIVE_INFINITY): ThermalLog {
  return {
    ...log,
    channels: log.channels.map((one) => {
      const { timeS, tempC } = one.history;
      const count = timeS.filter((t) => t <= untilS).length;
      return {
        ...one,
        history: {
          timeS: timeS.slice(0, count),
          tempC: tempC.slice(0, count).map((t) => 20 + share * (t - 20)),
        },
      };
    }),
  };
}

describe('strength while a log goes on', () => {
  // The same 400 draws: where judge went on to more, three Monte Carlo errors of a chance near the rule, 3 √(0.05 · 0.95/400).
  const errors = 3 * Math.sqrt((0.05 * 0.95) / ROUTINE_DRAWS);

  it('comes to what judge says once the log is whole, and is never kinder, with the lot or without', () => {
    const some = fc.constantFrom<Partial<JudgeOptions>>({}, { lots: [LOT] });
    fc.assert(
      fc.property(fc.double({ min: 0.65, max: 1.05, noNaN: true }), some, (share, more) => {
        const whole = heatedBy(share);
        const options = { ...OPTIONS, ...more };
        const { channels } = judge(whole, options);
        for (const [k, place] of strengthSoFar(whole, options).places.entries()) {
          const { verdict, chanceKept, yieldKeptFraction } = channels[k]!;
          if (place.word === 'kept') expect(verdict).toBe('kept');
          if (place.word === 'lost') expect(verdict).toBe('lost');
          if (verdict === 'kept' && chanceKept! > KEPT_FROM + 2 * errors) expect(place.word).toBe('kept');
          // The 5 % line is that of the same draws; of more of them, as many lie below it as 400 tell.
          const { usedAtMost } = place;
          const used = Math.max(0, (1 - yieldKeptFraction.low) / 0.1);
          if (Math.abs(usedAtMost - used) < 1e-9) continue;
          const asLow = judge(whole, { ...options, allowanceFraction: Math.max(1e-6, 0.1 * usedAtMost) });
          expect(Math.abs(asLow.channels[k]!.chanceKept! - 0.95)).toBeLessThanOrEqual(errors);
        }
      }),
      { numRuns: inFull ? 30 : 2, endOnFailure: true, examples: [[0.8, { lots: [LOT] }]] },
    );
  });

  it('counts down by the metal of the lot: one that softens at once has less time left than one that does not', () => {
    const holdS = (lots: readonly LotWeights[]): number =>
      strengthSoFar(heatedBy(0.6), { ...OPTIONS, lots }).places[0]!.left[3]!.holdS;
    const byYield = (power: number): LotWeights => {
      const { metals } = drawMetals(OPTIONS, 4000);
      const hold = thermalHistory([0, 600], [270, 270]);
      const weights = Float64Array.from(metals, (metal) => {
        const { yieldKept } = advanceMetal(metal, startOfMetal(metal), hold);
        return yieldKept[1]! ** power;
      });
      return { name: 'lot', membersHash: membersHash(), weights, because: [] };
    };
    const [weak, any, strong] = [holdS([byYield(-12)]), holdS([]), holdS([byYield(12)])] as const;
    expect(weak).toBeLessThan(any);
    expect(any).toBeLessThan(strong);
  });

  it('only ever uses up more of the allowance as the weld goes on', () => {
    const times = [200, 400, 700, 1200];
    // Type N: a type K may read high after heat, which longer heat makes of all that was read before.
    const wire = { standard: 'IEC 60584-1', class: 2, type: 'N' } as const;
    const options = { ...OPTIONS, thermocouple: wire };
    const used = times.map((s) => strengthSoFar(heatedBy(1, s), options).places[0]!.usedAtMost);
    // Other sampling may move the 5 % line by 0.01 of the yield: a tenth of the allowance of 0.1.
    for (let i = 1; i < used.length; i++) expect(used[i]!).toBeGreaterThanOrEqual(used[i - 1]! - 0.1);
  });

  it('holds back what cooling still takes: hotter, and longer, there is less left', () => {
    const { left } = strengthSoFar(heatedBy(0.6), OPTIONS).places[0]!;
    for (let i = 1; i < left.length; i++) expect(left[i]!.holdS).toBeLessThanOrEqual(left[i - 1]!.holdS);
    expect(left[0]!.holdS).toBeGreaterThan(600);
    expect(left[left.length - 1]!.holdS).toBeLessThan(60);
  });

  it('is not blind because the log ends hot, as judge is', () => {
    const { timeS, tempC } = log.channels[0]!.history;
    const hotS = timeS[tempC.indexOf(Math.max(...tempC))]!;
    const cut = heatedBy(0.7, hotS);
    expect(judge(cut, OPTIONS).channels[0]!.blind.length).toBeGreaterThan(0);
    expect(strengthSoFar(cut, OPTIONS).places[0]!.blind).toEqual([]);
  });
});
