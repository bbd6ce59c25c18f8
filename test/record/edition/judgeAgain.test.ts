import { beforeAll, describe, expect, it } from 'vitest';
import { type ChannelVerdict, type JudgeOptions, judge } from '../../../lib/decision';
import { readLog, type ThermalLog } from '../../../lib/log';
import { amendRecord, buildRecord, type DecisionRecord, judgeAgain } from '../../../lib/record';

const options: JudgeOptions = {
  alloy: 'A356.0',
  temper: 'T6',
  limitC: '430F',
  byChannel: { 'TC4 tube 25 mm': { alloy: '6061', temper: 'T6' } },
};
const FIRST = 'TC1 block 12 mm';
let log: ThermalLog;
let verdict: ReturnType<typeof judge>;
let record: DecisionRecord;
beforeAll(() => {
  const whole = readLog('data/demo/mast-foot-weld.csv');
  // A casting and the tube; more channels would only take longer.
  log = { ...whole, channels: whole.channels.filter(({ name }) => /^TC[14]/.test(name)) };
  verdict = judge(log, options);
  record = buildRecord({ verdict, log });
});

/** Thinning may move a chance by 0.02 (rules of the draws). */
function expectAlike(a: ReturnType<typeof judge>, b: ReturnType<typeof judge>): void {
  expect(a.verdict).toBe(b.verdict);
  expect(a.channels.map(({ name, verdict }) => [name, verdict])).toEqual(
    b.channels.map(({ name, verdict }) => [name, verdict]),
  );
  for (const [k, channel] of a.channels.entries()) {
    const other = b.channels[k]!;
    if (channel.chanceKept !== null)
      expect(Math.abs(channel.chanceKept - other.chanceKept!)).toBeLessThanOrEqual(0.02);
    else expect(other.chanceKept).toBeNull();
  }
}

/** The line as read and what each doubt does, by channel. */
const linesOf = ({
  channels,
}: {
  readonly channels: readonly Pick<ChannelVerdict, 'asReadFraction' | 'doubts'>[];
}) => channels.map(({ asReadFraction, doubts }) => ({ asReadFraction, doubts }));

describe('a record judged again', () => {
  it('says with nothing new what it said', () => {
    const again = judgeAgain(record, {});
    expectAlike(again, verdict);
    expect(again.notJudged).toEqual(record.verdict.notJudged);
    expect(again.channels[0]!.limits[0]).toMatchObject({ name: 'your limit', crossed: true });
  });

  it('says with a reading what judge says of the log with it', () => {
    const readings = [{ channel: FIRST, kind: 'brinell' as const, value: 70, reference: 76 }];
    const again = judgeAgain(record, { readings });
    expectAlike(again, judge(log, { ...options, readings }));
    // No reading moves the line as read and what each doubt does.
    expect(linesOf(again)).toEqual(linesOf(record.verdict));
  });

  it('says with another fixing what judge says of the log with it', () => {
    const byChannel = { ...options.byChannel, [FIRST]: { attachment: 'peened hole' as const } };
    const again = judgeAgain(record, { attachments: { [FIRST]: 'peened hole' } });
    expectAlike(again, judge(log, { ...options, byChannel }));
    expect(again.fixingNotStated).not.toContain(FIRST);
    expect(linesOf(again)[0]).not.toEqual(linesOf(record.verdict)[0]);
    expect(linesOf(again).slice(1)).toEqual(linesOf(record.verdict).slice(1));
    expect(again.channels[0]!.peakC.because.join(' ')).toContain('The fixing "peened hole" reads low');
  });

  it('works both out anew where the metals are others than those of the record', () => {
    const { madeWith: _, ...verdict } = record.verdict;
    const channels = verdict.channels.slice(1).map((one) => ({ ...one, asReadFraction: 0.5, doubts: [] }));
    const [again] = judgeAgain({ ...record, verdict: { ...verdict, channels } }, {}).channels;
    expect(again!.asReadFraction).toBeGreaterThan(0.8);
    expect(again!.doubts).not.toEqual([]);
  });

  it('shows old and new side by side in the next edition', () => {
    const next = amendRecord(record, { attachments: { [FIRST]: 'peened hole' } });
    const change = next.changes.find(({ what }) => what === `Probe ${FIRST}`)!;
    expect(change.was).not.toBe(change.now);
    expect(next.before).toBe(record.hash);
    expect(next.figures[0]!.caption).toBe(record.figures[0]!.caption);
    expect(() => amendRecord(record, { attachments: { 'TC1 blok 12 mm': 'peened hole' } })).toThrow(
      /no such probe.*Did you mean "TC1 block 12 mm"/s,
    );
  });
});
