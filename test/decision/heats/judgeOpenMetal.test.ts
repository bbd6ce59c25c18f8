import { describe, expect, it } from 'vitest';
import { coaterTicket, judgeHeats, judgeOpenMetal, ticketText } from '../../../lib/decision';

const OVEN = { oven: 'class 2', wallMm: 12, fan: true } as const;

describe('judgeOpenMetal', () => {
  it('the word must hold whichever it is', () => {
    const answer = judgeOpenMetal('440F 4h', 'A356-T6 or A356-T4', OVEN);
    expect(answer.answers.map(({ verdict }) => verdict.word)).toEqual([
      judgeHeats('440F 4h', { alloy: 'A356-T6', ...OVEN }).word,
      judgeHeats('440F 4h', { alloy: 'A356-T4', ...OVEN }).word,
    ]);
    expect(new Set(answer.answers.map(({ verdict }) => verdict.word)).size).toBe(2);
    expect(answer.word).toBe('uncertain');
    expect(answer.sentence).toMatch(/kept if it is A356\.0-T4; uncertain if it is A356\.0-T6/);
  });
  it('one metal is the same answer as by name', () => {
    const open = judgeOpenMetal('390F 1h', '6061-T6 or 6061-T6', OVEN);
    const named = judgeHeats('390F 1h', { alloy: '6061-T6', ...OVEN });
    expect(open.word).toBe(named.word);
    expect(open.chanceKept).toBeCloseTo(named.chanceKept!, 12);
  });
  it('hardness of cold metal rules tempers out, and never points to one that nobody named', () => {
    const { answers } = judgeOpenMetal('390F 10min', '6061, temper not known', { ...OVEN, coldBrinell: 66 });
    expect(answers.filter(({ isRuledOut }) => !isRuledOut).map(({ metal }) => metal)).toEqual(['6061-T4']);
    expect(() =>
      judgeOpenMetal('390F 10min', '6061, temper not known', { ...OVEN, coldBrinell: 180 }),
    ).toThrow(/so hard or so soft.*6061-T6 95 HB/);
  });
});

describe('signs of temperature', () => {
  it('a stick that did not melt makes an oven that is not known harmless, one that melted does not', () => {
    const told = { alloy: 'A356-T6' } as const;
    const chance = (seen: Parameters<typeof judgeHeats>[1]['seen']) =>
      judgeHeats('390F 1.5h', { ...told, seen }).chanceKept!;
    const without = chance([]);
    expect(chance([{ kind: 'stick', rating: '400F', melted: false }])).toBeGreaterThan(without);
    expect(chance([{ kind: 'stick', rating: '450F', melted: true }])).toBeLessThan(without);
  });
  it('that do not go with the heat are refused', () =>
    expect(() =>
      judgeHeats('390F 1h', {
        alloy: 'A356-T6',
        ...OVEN,
        seen: [{ kind: 'stick', rating: '300F', melted: false }],
      }),
    ).toThrow(/does not go with the heat/));
});

describe('the page for the coater', () => {
  it('names times that shrink with temperature, and what is left', () => {
    const ticket = coaterTicket(judgeHeats('390F 20min', { alloy: 'A356-T6', ...OVEN }), { part: 'HB-07' });
    const text = ticketText(ticket);
    expect(text.split('\n').length).toBeLessThan(60);
    expect(text).toMatch(/part: HB-07[\s\S]*A356\.0-T6[\s\S]*191 °C \(376 °F\): [\s\S]*Count on \d+ more/);
  });
  it('a part that is not cleared gets none', () =>
    expect(ticketText(coaterTicket(judgeHeats('440F 8h', { alloy: '6061-T6', ...OVEN })))).toMatch(
      /None\. This part is not cleared/,
    ));
});
