import type { LogText } from '../bytes/logText';
import { readCell } from '../layout/cell';
import { parseUnit } from '../layout/units';
import type { DateOrder } from '../readOptions';
import type { ClockPlan } from './clockPlan';
import { packedUs } from './packedTime';
import { parseDate, parseStamp, parseTime, US_PER_DAY, US_PER_S } from './stamp';

const COLON = 58;
const SPACE = 32;
const LETTER_T = 84;
const POINT = 46;
const COMMA = 44;
/** A date longer than this is read anew every time, bytes. */
const LONGEST_DATE = 40;
const isDigit = (byte: number | undefined) => byte !== undefined && byte >= 48 && byte <= 57;

/**
 * Reads the clock of a row: seconds for elapsed clocks, microseconds for the others, NaN when it cannot be
 * read. `fromText` is the meaning; `fromBytes` gives the same answer without making strings, by remembering
 * the date of the row before and reading plain digits itself.
 */
export class ClockReader {
  private readonly date = new Uint8Array(LONGEST_DATE);
  private dateLength = -1;
  private day = Number.NaN;

  constructor(
    private readonly plan: ClockPlan,
    private readonly decimal: '.' | ',',
    private readonly toText: LogText['toText'],
  ) {}

  /** Is the clock a plain number column? */
  get isNumber(): boolean {
    return this.plan.kind === 'elapsed' || this.plan.kind === 'count' || this.plan.kind === 'packed';
  }

  /** An elapsed clock is `number × timesS / perS` seconds; `perS` is 0 for the other clocks. */
  get timesS(): number {
    return this.plan.kind === 'elapsed' ? this.plan.timesS : 0;
  }

  get perS(): number {
    return this.plan.kind === 'elapsed' ? this.plan.perS : 0;
  }

  /** Clock of a number read from a number column. */
  fromNumber(value: number): number {
    const { plan } = this;
    if (plan.kind === 'elapsed') return (value * plan.timesS) / plan.perS;
    if (plan.kind === 'count')
      return Math.round((value * plan.timesUs) / plan.roundUs) * plan.roundUs + plan.addUs;
    if (plan.kind === 'packed') return packedUs(value, plan.dated);
    return Number.NaN;
  }

  fromText(clock: string, date: string): number {
    const { plan } = this;
    switch (plan.kind) {
      case 'elapsed':
      case 'count':
      case 'packed': {
        const cell = readCell(clock, this.decimal);
        if (!('value' in cell)) return Number.NaN;
        const isTime = cell.unit === undefined || parseUnit(cell.unit)?.quantity === 'time';
        return isTime ? this.fromNumber(cell.value) : Number.NaN;
      }
      case 'stamp':
        return parseStamp(clock, plan.order)?.us ?? Number.NaN;
      case 'time':
        return parseTime(clock, plan.form)?.us ?? Number.NaN;
      case 'date and time': {
        const time = parseTime(clock);
        return time
          ? parseDate(date, plan.order) * US_PER_DAY + time.us - (time.zoneMin ?? 0) * 60 * US_PER_S
          : Number.NaN;
      }
      case 'rows':
        return Number.NaN;
    }
  }

  fromBytes(bytes: Buffer, from: number, to: number, dateFrom: number, dateTo: number): number {
    const { plan } = this;
    if (plan.kind === 'stamp') {
      const split = this.timeStart(bytes, from, to);
      if (split > from) {
        const us = this.timeUs(bytes, split, to);
        if (us >= 0) {
          const day = this.dayOf(bytes, from, split - 1, plan.order);
          if (!Number.isNaN(day)) return day * US_PER_DAY + us;
        }
      }
    } else if (plan.kind === 'time' && plan.form === 'h:m:s') {
      const us = this.timeUs(bytes, from, to);
      if (us >= 0) return us;
    } else if (plan.kind === 'date and time') {
      const us = this.timeUs(bytes, from, to);
      if (us >= 0 && dateTo > dateFrom)
        return this.dayOf(bytes, dateFrom, dateTo, plan.order) * US_PER_DAY + us;
    }
    return this.fromText(this.trimmed(bytes, from, to), this.trimmed(bytes, dateFrom, dateTo));
  }

  private trimmed(bytes: Buffer, from: number, to: number): string {
    return to > from ? this.toText(bytes.subarray(from, to)).trim() : '';
  }

  /** Where the time of a stamp begins when a blank or T parts it from its date, else `from`. */
  private timeStart(bytes: Buffer, from: number, to: number): number {
    let colon = from;
    while (colon < to && bytes[colon] !== COLON) colon++;
    if (colon === to) return from;
    let at = colon;
    while (at > from && isDigit(bytes[at - 1])) at--;
    const separator = bytes[at - 1];
    return at > from + 1 && (separator === SPACE || separator === LETTER_T) ? at : from;
  }

  /** Day of a written date, remembered while the bytes stay the same from row to row. */
  private dayOf(bytes: Buffer, from: number, to: number, order: DateOrder): number {
    const length = to - from;
    let same = length === this.dateLength && length <= LONGEST_DATE;
    for (let i = 0; same && i < length; i++) same = bytes[from + i] === this.date[i];
    if (!same) {
      this.day = parseDate(this.trimmed(bytes, from, to), order);
      this.dateLength = length;
      for (let i = 0; i < Math.min(length, LONGEST_DATE); i++) this.date[i] = bytes[from + i]!;
    }
    return this.day;
  }

  /** Microseconds of "h:mm:ss" or "h:mm:ss.ffffff" and nothing else, −1 otherwise. */
  private timeUs(bytes: Buffer, from: number, to: number): number {
    let at = from;
    let hour = 0;
    while (at < to && at < from + 2 && isDigit(bytes[at])) hour = hour * 10 + bytes[at++]! - 48;
    if (at === from || hour > 23 || at + 6 > to || bytes[at] !== COLON || bytes[at + 3] !== COLON) return -1;
    if (
      !isDigit(bytes[at + 1]) ||
      !isDigit(bytes[at + 2]) ||
      !isDigit(bytes[at + 4]) ||
      !isDigit(bytes[at + 5])
    )
      return -1;
    const minute = bytes[at + 1]! * 10 + bytes[at + 2]! - 528;
    const second = bytes[at + 4]! * 10 + bytes[at + 5]! - 528;
    if (minute > 59 || second > 59) return -1;
    at += 6;
    let fraction = 0;
    if (at < to) {
      if ((bytes[at] !== POINT && bytes[at] !== COMMA) || to - at > 7 || to - at < 2) return -1;
      let unit = 100_000;
      for (at++; at < to; at++, unit /= 10) {
        if (!isDigit(bytes[at])) return -1;
        fraction += (bytes[at]! - 48) * unit;
      }
    }
    return ((hour * 60 + minute) * 60 + second) * US_PER_S + fraction;
  }
}
