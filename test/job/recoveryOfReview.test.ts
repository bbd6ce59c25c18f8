import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type JobFile, readJob, recoveryOfReview, reviewJob } from '../../lib/job';
import { buildRecord, partOfSheet, sheetOfPart, writeTicket } from '../../lib/record';
import { inFull } from '../setup/extent';

let folder: string;
let log: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'recovery-'));
  log = path.join(folder, 'lug.csv');
  // Up to its peak in a minute, half an hour down again.
  const row = (s: number): string => {
    const share = s < 60 ? s / 60 : Math.max(0, 1 - (s - 60) / 1740);
    return [s, 20 + 330 * share, 20 + 260 * share].join();
  };
  const rows = Array.from({ length: 91 }, (_, k) => row(20 * k));
  writeFileSync(log, ['Time (s),Lug (°C),Pipe (°C)', ...rows, ''].join('\n'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const KNOWN = {
  solutionTreatments: 1,
  thinnestWallMm: 6,
  longestMm: 300,
  holdsPressure: false,
  fittings: { threads: false, coating: false, inserts: false, machined: false },
} as const;
const found = new Map<string, ReturnType<typeof ask>>();
/** The same question is worked out once. */
function saved(over: Partial<JobFile> = {}) {
  const key = JSON.stringify(over);
  const known = found.get(key) ?? ask(over);
  found.set(key, known);
  return known;
}

const ask = (over: Partial<JobFile>) => {
  const review = reviewJob(
    readJob({
      log,
      metal: 'A356-T6',
      measuring: { attachment: 'peened hole' },
      probes: { Pipe: { metal: '6061-T6' } },
      sheet: { filler: '4043' },
      ...over,
    }),
  );
  return { review, ...recoveryOfReview(review) };
};
const way = ({ plan }: ReturnType<typeof saved>, kind: string) => plan.ways.find((one) => one.kind === kind)!;

describe('recoveryOfReview', () => {
  it('leaves at every place what the verdict says where nothing is done', () => {
    const open = saved();
    const accepted = way(open, 'accept').strength;
    for (const { name, yieldKeptFraction, chanceKept } of open.review.verdict.channels) {
      const { after } = accepted.find(({ place }) => place === name)!;
      // Another number of draws moves a chance by at most 0.02 and a yield by less.
      expect(Math.abs(after!.chanceKept! - chanceKept!)).toBeLessThanOrEqual(0.02);
      expect(Math.abs(after!.yieldKeptFraction.nominal - yieldKeptFraction.nominal)).toBeLessThanOrEqual(
        0.02,
      );
    }
  });

  it.runIf(inFull)('counts heats before the weld at every way but a new treatment', () => {
    const [cold, baked] = [saved(), saved({ heats: ['2 x 480F 2h'] })];
    const at = (one: typeof cold, kind: string) => way(one, kind).strength[0]!.after!.yieldMPa.nominal;
    expect(at(baked, 'accept')).toBeLessThan(at(cold, 'accept'));
    expect(at(baked, 'age again')).toBeLessThan(at(cold, 'age again'));
    expect(at(baked, 'full treatment')).toBeCloseTo(at(cold, 'full treatment'), 6);
  });

  it('asks what nobody said, and asks no more once it is', () => {
    const open = way(saved(), 'full treatment')
      .objections.map(({ what }) => what)
      .join('\n');
    for (const asked of [/holds pressure is not said/, /threads is not said/, /thinnest wall is not said/])
      expect(open).toMatch(asked);
    const told = way(saved({ recovery: KNOWN }), 'full treatment')
      .objections.map(({ what }) => what)
      .filter((what) => /is not said/.test(what));
    // Of the filler it matters how thick the joint is; of the block's own walls it does not.
    expect(told).toEqual([expect.stringMatching(/^How thick it is at "Pipe", "the weld" is not said/)]);
    expect(way(saved({ recovery: { ...KNOWN, holdsPressure: true } }), 'age again').permission).toBe(
      'forbidden',
    );
  });

  it('puts the same facts of the part into the verdict, its record and the plan', () => {
    const { review, plan } = saved({ recovery: KNOWN });
    expect(review.options.part).toEqual({ filler: '4043', ...KNOWN });
    expect(partOfSheet(buildRecord(review.record).job)).toEqual(review.options.part);
    expect(partOfSheet(sheetOfPart(KNOWN))).toEqual(KNOWN);
    expect(plan.state).toMatchObject(KNOWN);
  });

  it('finds a re-age for the place that decides that is as good as any it tried', () => {
    const { review, place, curves, best } = saved();
    expect(place).toBe(review.verdict.action.place);
    const highest = Math.max(...curves.flatMap(({ worst }) => worst));
    expect(best!.worst).toBeGreaterThanOrEqual(highest - 0.005);
  });

  it('writes a ticket for each furnace treatment that nothing forbids, and routes where both metals are there', () => {
    const { tickets, routes } = saved({ recovery: KNOWN });
    expect(tickets.map(({ title }) => title.split(/[,:]/)[0])).toEqual(['Age again', 'Full heat treatment']);
    expect(writeTicket(tickets[0]!, path.join(folder, 'ticket.html'))).toBe(path.join(folder, 'ticket.html'));
    expect(routes!.routes[0]!.strength[0]!.yieldMPa!.nominal).toBeGreaterThan(0);
    expect(saved({ recovery: { ...KNOWN, holdsPressure: true } }).tickets).toEqual([]);
    if (inFull) expect(saved({ probes: { Pipe: { role: 'unused' } } }).routes).toBeUndefined();
  });

  it('refuses a schedule that is not there, a fact that cannot be, and one on the sheet as well', () => {
    expect(() => saved({ recovery: { schedule: 'A356.0 T99' } })).toThrow(/recovery\.schedule.*T99/);
    expect(() => saved({ recovery: { thinnestWallMm: -1 } })).toThrow(/recovery\.thinnestWallMm/);
    expect(() => saved({ sheet: { thinnestWallMm: 3 } })).toThrow(/thinnestWallMm/);
  });
});
