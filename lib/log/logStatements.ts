import type { ThermocoupleType } from '../thermocouple';
import { COLD_END } from './columns/coldEndName';

/** Words of the file, and the line they stand on (1-based; the header's names row for a column). */
export interface Statement {
  readonly words: string;
  readonly row: number;
}

/** What a file says, in its header, of how it was measured; a key is there only when the file says so. */
export interface LogStatements {
  /**
   * Readings are means, or smoothed: that hides a peak. `channels` names them; all when empty. Over their interval, unless
   * the file gives a longer time, s, or so many readings.
   */
  readonly means?: Statement & {
    readonly channels: readonly string[];
    readonly overS?: number;
    readonly overReadings?: number;
  };
  /** Readings are the lowest of their interval, and no column holds the highest. */
  readonly minima?: Statement & { readonly channels: readonly string[] };
  /** The thermocouples' wire. */
  readonly wire?: Statement & { readonly type: ThermocoupleType };
  /** Time from row to row, s. */
  readonly interval?: Statement & { readonly intervalS: number };
  /** Readings come from an infrared or optical instrument: on bare metal these read low. */
  readonly infrared?: Statement;
  /** Channels that measure the air, an oven or the surroundings and not the part, by their names. */
  readonly air?: Statement & { readonly channels: readonly string[] };
  /** Channels that sit on something else than the part, such as a fixture, by their names. */
  readonly beside?: Statement & { readonly channels: readonly string[] };
}

const MEAN = /(?:^|[^a-z])(?:avg|averag(?:e[ds]?|ing)|means?|mittelwerte?|moyennes?)(?:[^a-z]|$)/i;
/** A filter of so many hertz is against the mains, and none of so many seconds. */
const SMOOTHED =
  /(?:^|[^a-z])(?:filter\w*|damping|smoothing|smoothed|time constant|running|moving|dämpfung|glättung|lissage)(?:[^a-z]|$)/i;
const OVER =
  /(\d+(?:[.,]\d+)?)\s*-?\s*(ms|msec|s|secs?|seconds?|sek\w*|min|mins|minutes?|h|hours?|samples?|readings?|points?|values?|rows?|scans?)(?![a-z])/i;
const MINIMUM = /(?:^|[^a-z])(?:min|minim(?:um|a)|lowest)(?:[^a-z]|$)/i;
const MAXIMUM = /(?:^|[^a-z])(?:max|maxim(?:um|a)|highest|peak)(?:[^a-z]|$)/i;
/** As the last word of a name: metal on the side of a clamp is still the part's. */
const BESIDE =
  /(?:^|[^a-z])(?:fixtures?|jigs?|(?:welding )?table|bench|clamps?|vi[cs]e|backing(?: bar)?|chill(?: bar)?s?|heat ?sink|torch|gun|gas cup|nozzle)(?:[ .#-]*\d+)?\s*(?:[([<].*)?$/i;
const INFRARED =
  /(?:^|[^a-z])(?:infra-?red|ir (?:temp\w*|sensor|camera|gun|spot)|pyrometers?|emissivity|thermal (?:camera|imager))(?:[^a-z]|$)/i;
const AIR = /(?:^|[^a-z])(?:(?:tc?[ _-]?)?(?:air|ambient|amb|room)|atmosphere|umgebung|luft)(?:[^a-z]|$)/i;
const OVEN = /(?:^|[^a-z])(?:oven|furnace|ofen|chamber)(?:[^a-z]|$)/i;
/** A probe in the load of a furnace is on the part. */
const PART = /(?:^|[^a-z])(?:load|part|casting|metal|work|work ?piece|weld)(?:[^a-z]|$)/i;
const PROBE = /(?:^|[^a-z])tc(?:[^a-z]|$)/i;
const WIRE =
  /(?:thermocouples?|t\/?c|wire|sensor|probe|input)[\s_:,;="-]*type[\s_:,;="-]*([BEJKNRST])(?![a-z])|type[ _-]?([BEJKNRST])[ _-]*(?:thermocouples?|t\/?c|wire)|^\W*type[\s_:,;="-]+([BEJKNRST])\W*$/i;
const INTERVAL =
  /(?:interval|period|sampl\w*|scan|rate|abtast\w*|takt)[^\d]{0,40}?(\d+(?:[.,]\d+)?)\s*(ms|msec|milliseconds?|s|secs?|seconds?|sek\w*|min|mins|minutes?|minuten|h|hr|hours?|hz)(?![a-z])/i;
const SECONDS: Readonly<Record<string, number>> = { ms: 1e-3, mi: 1e-3, s: 1, min: 60, h: 3600 };
const LONGEST_LINE = 400;

/** Reads the header's lines (with their rows) and the columns of the channels for what they say. */
export function logStatements(
  lines: readonly { readonly row: number; readonly text: string }[],
  channels: readonly { readonly name: string; readonly column: string }[],
  namesRow: number,
): LogStatements {
  const short = lines.filter(({ text }) => text.length <= LONGEST_LINE);
  const find = (pattern: RegExp): Statement | undefined => {
    const line = short.find(({ text }) => pattern.test(text));
    return line && { words: line.text.trim(), row: line.row };
  };
  const named = (test: (name: string) => boolean) => {
    const found = channels.filter(({ column }) => test(column.replace(/_/g, ' ')));
    if (found.length === 0) return undefined;
    const words = found.map(({ column }) => column).join(', ');
    return { words, row: namesRow, channels: found.map(({ name }) => name) };
  };
  const meanLine =
    find(MEAN) ??
    short
      .filter(({ text }) => OVER.test(text))
      .map(smoothing)
      .find(Boolean);
  const meanNames = named((name) => MEAN.test(name));
  const means = meanNames ?? (meanLine && { ...meanLine, channels: [] });
  const hasMaximum = channels.some(({ column }) => MAXIMUM.test(column.replace(/_/g, ' ')));
  const minima = hasMaximum ? undefined : named((name) => MINIMUM.test(name));
  const isOvenAir = (name: string) => OVEN.test(name) && !PROBE.test(name);
  const air = named((name) => (AIR.test(name) || COLD_END.test(name) || isOvenAir(name)) && !PART.test(name));
  const beside = named((name) => BESIDE.test(name));
  const infraredColumn = named((name) => INFRARED.test(name) || /^IR[ _-]?\d*$/.test(name));
  const infrared = infraredColumn ?? find(INFRARED);
  const wireLine = find(WIRE) ?? named((name) => WIRE.test(name));
  const wire = wireLine && WIRE.exec(wireLine.words);
  const interval = statedInterval(short);
  return {
    ...(means ? { means: { ...means, ...lengthOf(means.words) } } : {}),
    ...(minima ? { minima } : {}),
    ...(wireLine && wire
      ? {
          wire: {
            words: wireLine.words,
            row: wireLine.row,
            type: (wire[1] ?? wire[2] ?? wire[3])!.toUpperCase() as ThermocoupleType,
          },
        }
      : {}),
    ...(interval ? { interval } : {}),
    ...(infrared ? { infrared: { words: infrared.words, row: infrared.row } } : {}),
    ...(air ? { air } : {}),
    ...(beside ? { beside } : {}),
  };
}

function smoothing({ row, text }: { readonly row: number; readonly text: string }): Statement | undefined {
  return SMOOTHED.test(text) ? { words: text.trim(), row } : undefined;
}

/** How long a mean is said to run. */
function lengthOf(words: string): { readonly overS?: number; readonly overReadings?: number } {
  const match = OVER.exec(words);
  if (!match) return {};
  const [, digits, unit] = match;
  if (/^(?:samples?|readings?|points?|values?|rows?|scans?)$/i.test(unit!))
    return { overReadings: Number(digits!.replace(',', '.')) };
  const overS = secondsOf(match);
  return overS === undefined ? {} : { overS };
}

/** The interval the header gives, s. */
export function statedInterval(
  lines: readonly { readonly row: number; readonly text: string }[],
): LogStatements['interval'] {
  for (const { row, text } of lines) {
    const match = text.length <= LONGEST_LINE ? INTERVAL.exec(text) : null;
    const intervalS = match ? secondsOf(match) : undefined;
    if (intervalS !== undefined) return { words: text.trim(), row, intervalS };
  }
  return undefined;
}

function secondsOf([, digits, unit]: RegExpExecArray): number | undefined {
  const value = Number(digits!.replace(',', '.'));
  if (!(value > 0)) return undefined;
  const word = unit!.toLowerCase();
  if (word === 'hz') return 1 / value;
  if (word.startsWith('ms') || word.startsWith('milli')) return value * SECONDS.ms!;
  if (word.startsWith('min')) return value * SECONDS.min!;
  return value * (word.startsWith('h') ? SECONDS.h! : SECONDS.s!);
}
