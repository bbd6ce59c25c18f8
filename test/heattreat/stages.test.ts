import { describe, expect, it } from 'vitest';
import { checkChart, loadSchedule, type Schedule } from '../../lib/heattreat';
import { type Corner, furnaceOf, invented, programme, SOUND, soundLog, water } from './invent';

const load = (corners: readonly Corner[]) => ({
  'Load 1': programme(corners),
  'Load 2': (h: number) => programme(corners)(h) - 0.5,
});
const chart = (corners: readonly Corner[], toH: number) => invented({ channels: load(corners), toH });
const words = (check: ReturnType<typeof checkChart>) =>
  Object.fromEntries(check.requirements.map(({ name, verdict }) => [name, verdict]));

describe('ageing without a solution treatment', () => {
  it('is all a T51 or a T5 asks for', () => {
    const log = chart(
      [
        [0, 20],
        [1, 227],
        [9, 227],
        [11, 30],
      ],
      11,
    );
    const check = checkChart(log, '356.0 T51 casting');
    expect(check.verdict).toBe('met');
    expect(check.stages.map(({ name }) => name)).toEqual(['ageing']);
    expect(
      words(
        checkChart(
          chart(
            [
              [0, 20],
              [1, 182],
              [5, 182],
              [6, 30],
            ],
            6,
          ),
          '6063 T5 extrusion',
        ),
      ),
    ).toMatchObject({
      'Ageing: time in the band': 'met',
    });
  });
});

describe('ageing in steps', () => {
  const two = '6082 T6 bar, two steps';
  const ages = (log: ReturnType<typeof chart>, schedule: string | Schedule) =>
    Object.entries(words(checkChart(log, schedule))).filter(([name]) => name.startsWith('Ageing'));

  it('is counted step by step', () => {
    const log = chart(
      [
        [0, 20],
        [1, 170],
        [3.2, 170],
        [3.5, 220],
        [4.6, 220],
        [6, 30],
      ],
      6,
    );
    expect(ages(log, two).filter(([, word]) => word !== 'met')).toEqual([]);
    expect(checkChart(log, two).stages.map(({ name }) => name)).toEqual(['ageing, step 1', 'ageing, step 2']);
    const short = chart(
      [
        [0, 20],
        [1, 170],
        [1.9, 170],
        [2.2, 220],
        [3.3, 220],
        [5, 30],
      ],
      5,
    );
    expect(words(checkChart(short, two))).toMatchObject({
      'Ageing, step 1: time in the band': 'not met',
      'Ageing, step 2: time in the band': 'met',
    });
  });

  it('may be interrupted by a hold at a lower temperature', () => {
    const hold = (setC: number, leastH: number): Schedule['ages'][number] => ({
      setC,
      lowC: setC - 6,
      highC: setC + 6,
      leastH,
      mostH: null,
      source: 'invented',
      known: 'practice',
    });
    const interrupted: Schedule = {
      ...loadSchedule('6061 T6 extrusion and bar'),
      ages: [hold(177, 0.33), hold(65, 20), hold(177, 2)],
    };
    const log = chart(
      [
        [0, 20],
        [0.5, 177],
        [1, 177],
        [1.4, 65],
        [22, 65],
        [22.5, 177],
        [25, 177],
        [26, 30],
      ],
      26,
    );
    expect(ages(log, interrupted).map(([, word]) => word)).toEqual(Array(6).fill('met'));
    const cut = chart(
      [
        [0, 20],
        [0.5, 177],
        [1, 177],
        [1.4, 65],
        [10, 65],
        [10.5, 177],
        [13, 177],
        [14, 30],
      ],
      14,
    );
    expect(words(checkChart(cut, interrupted))).toMatchObject({
      'Ageing, step 2: time in the band': 'not met',
    });
  });

  it('more ageing than the schedule has cannot be told from another load', () => {
    const twice = chart(
      [
        [0, 20],
        [1, 177],
        [10, 177],
        [12, 22],
        [20, 22],
        [21, 177],
        [30, 177],
        [32, 25],
      ],
      32,
    );
    const check = checkChart(twice, '6061 T6 extrusion and bar');
    expect(check.requirements.filter(({ verdict }) => verdict === 'met')).toEqual([]);
    expect(check.notes[0]).toContain('more ageing than the schedule');
  });
});

describe('natural ageing', () => {
  const T4 = '6061 T4 any form';
  const corners = SOUND.slice(0, 7);
  it('is met once the chart holds four days of it', () => {
    const log = (toH: number) =>
      soundLog(
        { ...load(corners.map(([h, c]): Corner => [h, c > 500 ? c - 8 : c])), 'Quench water': water },
        { toH },
      );
    expect(words(checkChart(log(40), T4))['Natural ageing']).toBe('cannot tell');
    expect(words(checkChart(log(115), T4))['Natural ageing']).toBe('met');
  });
});

describe('what a shop’s own schedule may ask beside', () => {
  const plan = loadSchedule('A356.0 T6 sand casting');
  const asking = (more: Partial<NonNullable<Schedule['solution']>>): Schedule => ({
    ...plan,
    solution: { ...plan.solution!, ...more },
  });

  it('is a heating rate', () => {
    // 22 to 536 °C in three hours.
    expect(words(checkChart(soundLog(), asking({ maxHeatingKPerH: 180 })))).toMatchObject({
      'Solution: heating rate': 'met',
    });
    expect(words(checkChart(soundLog(), asking({ maxHeatingKPerH: 160 })))).toMatchObject({
      'Solution: heating rate': 'not met',
    });
    expect(
      words(checkChart(soundLog(undefined, { fromH: 2.9 }), asking({ maxHeatingKPerH: 180 }))),
    ).toMatchObject({
      'Solution: heating rate': 'cannot tell',
    });
  });

  it('is a spread between the load sensors', () => {
    expect(words(checkChart(soundLog(), asking({ maxSpreadK: 1.5 })))).toMatchObject({
      'Solution: load sensors together': 'met',
    });
    expect(words(checkChart(soundLog(), asking({ maxSpreadK: 0.5 })))).toMatchObject({
      'Solution: load sensors together': 'not met',
    });
  });

  it('is a quench rate', () => {
    const quick = (leastRateKPerS: number): Schedule => ({
      ...plan,
      quench: { ...plan.quench!, leastRateKPerS },
    });
    expect(
      [20, 50, 90].map((rate) => words(checkChart(soundLog(), quick(rate)))['Quench: cooling rate']),
    ).toEqual(['met', 'cannot tell', 'not met']);
  });
});

describe('sensors without a telling name', () => {
  it('are load when they lag, and the one that leads proves nothing', () => {
    const air = programme([
      [0, 20],
      [0.5, 227],
      [10, 227],
      [10.2, 60],
      [12, 30],
    ]);
    const lagged = (h: number) =>
      programme([
        [0, 20],
        [1.5, 225],
        [2, 227],
        [10, 227],
        [11, 100],
        [12, 60],
      ])(h);
    const log = invented({ channels: { TC1: air, TC2: lagged }, toH: 12 });
    const check = checkChart(log, '356.0 T51 casting');
    expect(check.sensors.map(({ role }) => role)).toEqual(['not told', 'load']);
    expect(words(check)['Ageing: time in the band']).toBe('met');
  });

  it('are load when they went into the quench', () => {
    const log = soundLog({ TC1: programme(SOUND), TC2: furnaceOf(programme(SOUND)) });
    expect(checkChart(log, 'A356-T6').sensors.map(({ role }) => role)).toEqual(['load', 'not told']);
  });
});
