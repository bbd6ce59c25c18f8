import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { readLog, type ThermalLog } from '../../lib/log';
import { TemperbookError } from '../../lib/quantity';
import { DIALECTS, type Dialect, MUTATORS, randomFrom, wholeLog } from './mutate';
import { checkPromises } from './promises';

/** Mutated logs for each dialect; `npm run fuzz` asks for many more. */
const PER_DIALECT = Number(process.env.MUTATIONS ?? 600);
const kept = path.join(__dirname, 'fixtures/mutations');

/**
 * An oracle with a parser of its own: every reading of TC1 that the log trusts is the number that stands in its
 * line of the file, and rows that stand in the file with their times untouched are as far apart as those say.
 */
function checkAgainstFile(log: ThermalLog, lines: readonly string[], dialect: Dialect): number {
  const channel = log.channels.find(({ name }) => name === 'TC1');
  if (!channel) return 0;
  const { history, rows } = channel;
  let compared = 0;
  let zero = Number.NaN;
  // A row far ahead, or of another block, has times the file does not tell.
  const isOneClock = !log.notes.some((note) => /starts anew|midnight|next day|goes back|share/.test(note));
  for (let n = 0; n < rows.length; n++) {
    const fields = (lines[rows[n]! - 1] ?? '')
      .split(dialect.delimiter)
      .map((text) => text.replace(/^[\s"\ufeff]+|[\s"\0]+$/g, ''));
    const text = fields[1] ?? '';
    if (fields.length !== 3 || !/^\d+[.,]\d\d$/.test(text)) continue;
    const tempC = dialect.toC(Number(text.replace(',', '.')));
    // Rounding of one conversion in doubles.
    if (Math.abs(history.tempC[n]! - tempC) > 1e-9)
      throw new Error(`row ${rows[n]}: read ${history.tempC[n]}, and the file has ${text}`);
    const seconds = dialect.seconds(fields[0]!);
    if (!isOneClock || Number.isNaN(seconds)) continue;
    const own = seconds - history.timeS[n]!;
    if (Number.isNaN(zero)) zero = own;
    if (Math.abs(own - zero) > 1e-6)
      throw new Error(`row ${rows[n]}: placed at ${history.timeS[n]} s, and the file has ${fields[0]}`);
    compared++;
  }
  return compared;
}

/** Reads one mutated log; only the kit's own error may come out. How many rows were compared, −1 for an error. */
function attempt(lines: readonly string[], dialect: Dialect): number {
  try {
    const log = readLog(Buffer.from(`${lines.join('\n')}\n`));
    checkPromises(log);
    return checkAgainstFile(log, lines, dialect);
  } catch (error) {
    if (!(error instanceof TemperbookError)) throw error;
    return -1;
  }
}

describe.each(DIALECTS.map((dialect) => [dialect.name, dialect] as const))('mutated: %s', (_, dialect) => {
  const whole = wholeLog(dialect);

  it('a whole log is read whole', () =>
    expect(attempt(whole, dialect)).toBe(whole.length - dialect.head.length));

  it('one to three mutations lose nothing and invent nothing', () => {
    const names = Object.keys(MUTATORS);
    let compared = 0;
    let refused = 0;
    for (let seed = 0; seed < PER_DIALECT; seed++) {
      const random = randomFrom(seed);
      let lines: string[] = whole;
      const did: string[] = [];
      for (let k = 0; k <= random(3); k++) {
        const name = names[random(names.length)]!;
        did.push(name);
        lines = MUTATORS[name]!(lines, random, dialect);
      }
      try {
        const rows = attempt(lines, dialect);
        if (rows < 0) refused++;
        else compared += rows;
      } catch (error) {
        mkdirSync(kept, { recursive: true });
        const file = path.join(kept, `${DIALECTS.indexOf(dialect)}-${seed}.csv`);
        writeFileSync(file, lines.join('\n'));
        throw new Error(`seed ${seed} (${did.join(', ')}), kept as ${file}: ${String(error)}`);
      }
    }
    // Three mutations leave most logs readable and most rows untouched.
    expect(refused).toBeLessThan(0.1 * PER_DIALECT);
    expect(compared).toBeGreaterThan(0.6 * PER_DIALECT * (whole.length - dialect.head.length));
  });
});

it('mutated logs that once failed are read or refused', () => {
  const files = existsSync(kept) ? readdirSync(kept).filter((name) => name.endsWith('.csv')) : [];
  for (const name of files) {
    const dialect = DIALECTS[Number(name.split('-')[0])]!;
    const lines = readFileSync(path.join(kept, name), 'utf8').split('\n');
    expect(attempt(lines, dialect), name).toBeGreaterThanOrEqual(-1);
  }
});
