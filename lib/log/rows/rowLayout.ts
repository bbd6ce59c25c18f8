import type { ClockPlan } from '../clock/clockPlan';
import type { Dialect } from '../layout/dialect';
import type { Header, HeaderColumn } from '../layout/header';

/** What is read out of each row. */
export interface ReadPlan {
  readonly dialect: Dialect;
  readonly header: Header;
  readonly clock: ClockPlan;
  /** Columns of the channels, and the units their numbers may carry. */
  readonly channels: readonly HeaderColumn[];
  readonly units: readonly string[];
  readonly reference?: HeaderColumn;
  /** Columns that may be missing at the end of a row, because they never hold anything. */
  readonly emptyTail: number;
}

/** What is done with a field, by column. */
export const SKIP = 0;
/** A temperature. */
export const CHANNEL = 1;
/** The time, or the time of day where the date stands apart. */
export const CLOCK = 2;
/** The date, where it stands apart. */
export const DATE = 3;
/** Cold end of the thermocouples. */
export const REFERENCE = 4;

/** Where in a row its parts stand. */
export interface RowLayout {
  readonly delimiter: string;
  readonly decimal: '.' | ',';
  /** A row with fewer fields is rejected: which one is missing cannot be known. */
  readonly least: number;
  readonly usual: number;
  /** Filled fields beyond this many reject the row. */
  readonly most: number;
  readonly roles: Uint8Array;
  /** Channel of each column. */
  readonly channel: Int32Array;
  /** Unit of each channel, which a unit glued to a number must agree with. */
  readonly units: readonly string[];
  /** Channels that are not in this block of the file. */
  readonly absent: readonly number[];
}

/** Lays a plan over the columns of a block, which may stand otherwise than in the first one. */
export function layoutOf(plan: ReadPlan, columns: readonly HeaderColumn[], usual: number): RowLayout {
  const { dialect, clock } = plan;
  const roles = new Uint8Array(Math.max(usual, columns.length));
  const channel = new Int32Array(roles.length);
  const places = new Map(columns.map(({ index }, at) => [index, at] as const));
  const place = (index: number) => places.get(index) ?? -1;
  if ('column' in clock && place(clock.column) >= 0) roles[place(clock.column)] = CLOCK;
  if (clock.kind === 'date and time' && place(clock.date) >= 0) roles[place(clock.date)] = DATE;
  if (plan.reference && place(plan.reference.index) >= 0) roles[place(plan.reference.index)] = REFERENCE;
  const absent: number[] = [];
  plan.channels.forEach(({ index }, k) => {
    const at = place(index);
    if (at < 0) absent.push(k);
    else {
      roles[at] = CHANNEL;
      channel[at] = k;
    }
  });
  let last = roles.length - 1;
  while (last > 0 && roles[last] === 0) last--;
  return {
    delimiter: dialect.delimiter,
    decimal: dialect.decimal,
    least: Math.max(last + 1, usual - plan.emptyTail),
    usual,
    most: roles.length,
    roles,
    channel,
    units: plan.units,
    absent,
  };
}
