import { describe, expect, it } from 'vitest';
import { type JudgeOptions, judge } from '../../lib/decision';
import { isothermal } from '../../lib/history';
import { readLog } from '../../lib/log';
import { strengthAfter } from '../../lib/strength';
import { cool, csv, USUAL } from './logs';

describe('alloy and temper in one word', () => {
  it('is the same question as in two', () => {
    const soak = isothermal(200, 1800);
    expect(judge(soak, { alloy: '6061-T6' })).toEqual(judge(soak, { alloy: '6061', temper: 'T6' }));
    expect(strengthAfter(soak, { alloy: 'A356-T6' }).chanceKept).toBe(
      strengthAfter(soak, { alloy: 'A356.0', temper: 'T-6' }).chanceKept,
    );
  });
  it('holds for one probe of a log, with a temper of its own', () => {
    const log = readLog(Buffer.from(csv({ TC1: cool, TC2: cool }, { toS: 60 })));
    const of = (byChannel: JudgeOptions['byChannel']) =>
      judge(log, { ...USUAL, byChannel }).channels.map(({ alloy, temper }) => `${alloy}-${temper}`);
    expect(of({ TC2: { alloy: '6061-T4' } })).toEqual(['A356.0-T6', '6061-T4']);
    expect(of({ TC2: { alloy: '6061' } })).toEqual(['A356.0-T6', '6061-T6']);
  });
});
