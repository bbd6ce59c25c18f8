import { describe, expect, it } from 'vitest';
import { judge } from '../../lib/decision';
import { logsInFolder, readLog } from '../../lib/log';
import { frameRows, tidyRows, toDataFrame, weldFrameRows, weldRow } from '../../lib/report';

const folder = 'data/demo/welds';
const [first] = logsInFolder(folder);
const log = readLog(`${folder}/${first}`);
const verdict = judge(log, { alloy: 'A356.0', temper: 'T6', attachment: 'peened hole' });

describe('logs as rows', () => {
  it('have a row for each trusted reading', () => {
    const rows = tidyRows(log);
    expect(rows).toHaveLength(log.channels.reduce((sum, { history }) => sum + history.timeS.length, 0));
    expect(rows[0]).toEqual({
      time: 0,
      channel: 'Block 12 mm (°C)'.replace(' (°C)', ''),
      tempC: rows[0]!.tempC,
    });
  });

  it('end at what the verdict says is kept, every field filled', () => {
    const rows = tidyRows(log, verdict);
    for (const { name, yieldKeptFraction } of verdict.channels) {
      const last = rows.filter(({ channel }) => channel === name).at(-1)!;
      expect(last.yieldKept).toBeCloseTo(yieldKeptFraction.nominal, 3);
      expect(last.low).toBeCloseTo(yieldKeptFraction.low, 3);
      expect(last.high).toBeCloseTo(yieldKeptFraction.high, 3);
    }
    expect(rows.flatMap((row) => Object.values(row)).filter((value) => Number.isNaN(value))).toEqual([]);
    expect(rows.every(({ low, yieldKept, high }) => low <= yieldKept && yieldKept <= high)).toBe(true);
  });

  it('become a data frame with the same columns', () => {
    const frame = toDataFrame(log, verdict);
    expect(frame.columns).toEqual(['time', 'channel', 'tempC', 'yieldKept', 'low', 'high']);
    expect(frame.shape[0]).toBe(tidyRows(log, verdict).length);
  });

  it('give one row a weld, and frames of them give rows again', () => {
    const row = weldRow('a.csv', verdict, 'bench-1');
    expect(row.verdict).toBe(verdict.verdict);
    expect(row.lowestKept).toBeCloseTo(
      Math.min(...verdict.channels.map(({ yieldKeptFraction }) => yieldKeptFraction.low)),
      3,
    );
    expect(Object.values(row).every((value) => value !== null && !Number.isNaN(value))).toBe(true);
    const rows = frameRows(toDataFrame(log).describe());
    expect(rows.map((one) => one[''])).toContain('median');
  });

  it('of many welds are told in words and units, the mean of a group too', () => {
    const frame = (columns: string[], values: (string | number)[][]) => ({ columns, values, index: [0] });
    expect(
      weldFrameRows(
        frame(['log', 'verdict', 'lowestKept', 'peakC', 'passes'], [['a.csv', 'kept', 0.934, 267, 3]]),
      ),
    ).toEqual([
      {
        Log: 'a.csv',
        Verdict: 'kept',
        'Yield kept, low end': '93 %',
        'Hottest reading': '267 °C (513 °F)',
        Passes: '3',
      },
    ]);
    expect(
      weldFrameRows(frame(['group', 'hottestInterpassC_mean', 'shop'], [['bench-1', 58.92, 'ours']])),
    ).toEqual([{ Group: 'bench-1', 'Hottest interpass, mean': '59 °C (138 °F)', shop: 'ours' }]);
  });

  it('say what is wrong with a folder', () => {
    expect(() => logsInFolder('data/alloys')).toThrow('there is no log in this folder');
    expect(() => logsInFolder('no/such')).toThrow('the folder cannot be read');
  });
});
