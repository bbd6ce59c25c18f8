import { formatDuration, formatTemp } from '../quantity';
import type { ColumnPlan } from './columns/columnPlan';
import { GAP_INTERVALS } from './gapPolicy';
import type { LogStatements, Statement } from './logStatements';
import type { MaskedLog } from './maskedLog';
import type { Fault, LogChannel, OpenReading } from './thermalLog';

const plural = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`;

/** What became of each channel's readings, in a sentence for each channel with faults. */
export function faultNotes(channels: readonly LogChannel[]): string[] {
  return channels.flatMap(({ name, faults, history }) => {
    if (faults.length === 0) return [];
    const byKind = new Map<string, { readings: number; first: Fault }>();
    for (const fault of faults) {
      const seen = byKind.get(fault.kind);
      if (seen) seen.readings += fault.readings;
      else byKind.set(fault.kind, { readings: fault.readings, first: fault });
    }
    const total = faults.reduce((sum, { readings }) => sum + readings, 0);
    const kinds = [...byKind].map(
      ([kind, { readings, first }]) =>
        `${readings} ${kind} (${readings === 1 ? 'row' : 'first in row'} ${first.row})`,
    );
    const rest = history.timeS.length === 0 ? 'Nothing of the channel can be used.' : '';
    return [`"${name}": ${plural(total, 'reading')} left out: ${kinds.join(', ')}. ${rest}`.trim()];
  });
}

/** Which column each channel is, and which columns are left aside. */
export function columnNotes({ channels, leftAside }: ColumnPlan): string[] {
  const converted = (unit: string) => (unit === '°C' ? '' : `, converted from ${unit} to °C`);
  return [
    ...channels
      .filter(({ name, column, unit }) => unit !== '°C' || name !== column)
      .map(({ name, column, unit }) => `Channel "${name}" is column "${column}"${converted(unit)}.`),
    ...leftAside.map(({ name, why }) => `Column "${name}" is left aside: ${why}.`),
  ];
}

/** The account of the rows, and the limits it was made with. */
export function accountNotes({ rows, rowFaults, limits, gaps }: MaskedLog, isGapGiven: boolean): string[] {
  const { read, kept, flagged, rejected } = rows;
  const clockGaps = rowFaults.filter(({ kind }) => kind === 'gap').length;
  return [
    `${plural(read, 'row')} read: ${kept} kept whole, ${flagged} with at least one reading left out, ${rejected} not used at all.`,
    `Readings are believed from ${formatTemp(limits.lowC)} to under ${formatTemp(limits.highC)}, and up to ${limits.maxRateCPerS} °C/s.`,
    `Up to ${formatDuration(gaps.limitS)} without a reading is bridged by a straight line (${isGapGiven ? 'as you said' : `${GAP_INTERVALS} usual intervals`}); anything longer counts as not recorded.`,
    ...(clockGaps > 0 ? [`The rows themselves have ${plural(clockGaps, 'gap')} longer than that.`] : []),
  ];
}

/** A decision that could have gone otherwise, and the option that settles it. */
export function openNote({ because, option, taken, other }: OpenReading): string {
  const ways = other.map(({ words }) => words).join(', or ');
  return `Warning: ${because} It is read as ${taken.words}; it could be ${ways}. Option ${option} settles it.`;
}

/** What the file says of how it was measured, as far as it bears on heat that the readings may not show. */
export function statementNotes({ means, minima, infrared, air, beside }: LogStatements): string[] {
  const quoted = ({ words }: Statement) => `"${words.slice(0, 80)}"`;
  const listed = (channels: readonly string[]) => channels.map((name) => `"${name}"`).join(', ');
  return [
    ...(means ? [`Warning: the readings are means, going by ${quoted(means)}; a mean hides a peak.`] : []),
    ...(minima
      ? [
          `Warning: going by ${quoted(minima)} the readings are the lowest of their interval: no peak shows in them.`,
        ]
      : []),
    ...(beside
      ? [`${listed(beside.channels)} may sit on something else than the part, going by the name.`]
      : []),
    ...(infrared
      ? [
          `Warning: going by ${quoted(infrared)} an infrared instrument was used; on bare metal it reads low, unless the spot was painted or its emissivity set.`,
        ]
      : []),
    ...(air
      ? [
          `${listed(air.channels)} measure${air.channels.length === 1 ? 's' : ''} the air or the surroundings and not the part, going by the name.`,
        ]
      : []),
  ];
}
