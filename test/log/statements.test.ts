import { describe, expect, it } from 'vitest';
import { readLog } from '../../lib/log';
import { lines, rows, weldC } from './write';

const body = rows(60, (i) => `${i},${weldC(i).toFixed(1)},${weldC(i, 90).toFixed(1)}`);
const read = (...head: readonly string[]) => readLog(lines(...head, body));

describe('what a file says of how it was measured', () => {
  it('says nothing when it says nothing', () =>
    expect(read('Time (s),TC1 (°C),TC2 (°C)').statements).toEqual({}));

  it('means over the interval, by the name of a column', () => {
    const log = read('Time (s),TC1_Avg (°C),TC2 (°C)');
    expect(log.statements.means).toEqual({ words: 'TC1_Avg (°C)', row: 1, channels: ['TC1_Avg'] });
    expect(log.notes.join()).toContain('a mean hides a peak');
  });

  it('means over the interval, by a line of the header', () =>
    expect(read('Recording mode: average', 'Time (s),TC1 (°C),TC2 (°C)').statements.means).toEqual({
      words: 'Recording mode: average',
      row: 1,
      channels: [],
    }));

  it('the wire, the interval and an infrared instrument', () => {
    const { statements } = read(
      'Thermocouple type: J',
      'Sample interval: 500 ms',
      'Emissivity 0.95',
      'Time (s),TC1 (°C),TC2 (°C)',
    );
    expect(statements.wire).toEqual({ words: 'Thermocouple type: J', row: 1, type: 'J' });
    expect(statements.interval).toEqual({ words: 'Sample interval: 500 ms', row: 2, intervalS: 0.5 });
    expect(statements.infrared).toEqual({ words: 'Emissivity 0.95', row: 3 });
  });

  it('channels in the air, but not the load of a furnace', () =>
    expect(read('Time (s),Oven air (°C),Oven load (°C)').statements.air?.channels).toEqual(['Oven air']));

  it('a wire that the options contradict leaves the log open', () => {
    const file = lines(
      'Type: J',
      'Time (s),TC1 (mV)',
      rows(60, (i) => `${i},${(0.9 + i / 30).toFixed(3)}`),
    );
    const log = readLog(file, { thermocouple: { type: 'K', referenceC: 0 } });
    const [open] = log.openReadings;
    expect(open).toMatchObject({ of: 'wire', taken: { words: 'type K' }, other: [{ words: 'type J' }] });
    expect(readLog(file, open!.other[0]!.options).openReadings).toEqual([]);
  });
});
