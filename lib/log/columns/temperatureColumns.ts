import { TemperbookError } from '../../quantity';
import { parseUnit } from '../layout/units';
import type { Reading } from '../reading';
import type { LeftAside } from '../thermalLog';
import { COLD_END } from './coldEndName';
import { type ColumnSample, findColumn } from './columnSample';
import { LOAD, readsLikeTemperatures } from './furnaceLoad';
import { STATUS } from './statusColumns';

/** Which columns are temperatures, and why the others are not. */
export interface ColumnUses {
  readonly channels: readonly { readonly sample: ColumnSample; readonly name: string }[];
  /** Cold end of the thermocouples, for columns in mV. */
  readonly reference?: ColumnSample;
  readonly leftAside: readonly LeftAside[];
}

const word = (alternatives: string) =>
  new RegExp(`(?:^|[^a-zäöüéè])(?:${alternatives})(?:[^a-zäöüéè]|$)`, 'i');

const TEMPERATURE =
  /(?:^|[^a-z])(?:tcs?|thermo[a-zéè]*|temp(?:erature?s?|eratur|erat|érature)?s?|température|theta|pyro(?:meter)?|rtd|pt ?100|pt ?1000)(?:[^a-z]|$)|^(?:T|t)[ _.-]?\d+$|^T(?:[ _.-]\w+)*$/i;
const CHANNEL_LIKE =
  /^(?:ch(?:an(?:nel)?)?|kanal|canal|voie|probe|sensor|senseur|fühler|input|ai|analog(?:ue)?|spot|point)[ _.#-]*(?:\d+|[a-z])?$/i;
const SETPOINT = word('set[ _-]?point|sp\\d*|target|soll\\w*|program(?:me)?|consigne|wsp|demand');
/** Names of differences, which are no temperatures until the room is added. */
const RISE = word('rises?|delta|temp[ _-]?diff\\w*|over[ _-]ambient|above[ _-]ambient');
const DIFFERENCE = /(?:^|[^A-Za-z])dT(?:[^a-z]|$)|Δ/;
const isRise = (stem: string) => RISE.test(stem.replace(/_/g, ' ')) || DIFFERENCE.test(stem);
const COUNTER =
  /^(?:#|no\.?|nr\.?|n°|n|i|idx|index|id|scan|scan ?(?:no|nr|number)\.?|sample|sample ?(?:no|nr|number)\.?|record|rec|row|line|entry|point|pt|count|counter|seq(?:uence)?|number|nummer|messung|item)$/i;
const OTHER = word(
  'current|amps?|amperage|volts?|voltage|power|watts?|energy|flow|gas|pressure|humidity|rh|speed|velocity|position|height|depth|' +
    'distance|travel|flag|status|state|alarm|relay|battery|flux|radiation|feed|force|load|strain|rpm|latitude|longitude|rate|' +
    'duty|mode|event|marker|trigger|valve|fan|mass|weight|level|co2|o2|duration|dwell|interval',
);
/** Named for the surroundings: such a channel rightly stays near room temperature. */
export const AMBIENT = word('amb|ambient|room|air|surroundings|umgebung|raum|tcamb|tamb');

type Guess = 'temperature' | 'perhaps' | 'load' | 'reference' | { readonly why: string };

function guess({ column, kind, numbers, texts, glued }: ColumnSample, riseOverC?: number): Guess {
  const { stem, unit } = column;
  const [stuck] = glued;
  const measured = unit ?? (stuck === undefined ? undefined : parseUnit(stuck));
  const quantity = measured?.quantity;
  if (kind === 'text') return { why: 'it holds words, not readings' };
  if (kind === 'empty' && !(unit?.quantity === 'temperature' || TEMPERATURE.test(stem)))
    return { why: 'it is empty' };
  if (quantity === 'other' || quantity === 'time')
    return { why: `it is in ${measured!.symbol}, not a temperature` };
  if (kind !== 'number' && kind !== 'token' && kind !== 'empty')
    return { why: `it holds ${kind}s, not readings` };
  if (unit === undefined && STATUS.test(stem))
    return { why: 'its name says that it holds the state of readings, not readings' };
  if (SETPOINT.test(stem)) return { why: 'its name says that it is a set value, not a measured one' };
  if (riseOverC === undefined && isRise(stem))
    return {
      why: 'its name says that it holds rises; option riseOverC gives the temperature they start from',
    };
  if (COLD_END.test(stem)) return 'reference';
  if (quantity === 'temperature' || quantity === 'emf') return 'temperature';
  if (COUNTER.test(stem) && isCounter(numbers)) return { why: 'it counts the rows' };
  if (TEMPERATURE.test(stem)) return 'temperature';
  if (LOAD.test(stem)) return 'load';
  if (OTHER.test(stem)) return { why: 'its name does not speak of a temperature' };
  if (isCounter(numbers) && numbers[0]! <= 1) return { why: 'it counts the rows' };
  if (texts.every((text) => /^(?:0|1|)$/.test(text)) && texts.length > 3)
    return { why: 'it only switches between 0 and 1' };
  return 'perhaps';
}

function isCounter(numbers: Float64Array): boolean {
  let ones = 0;
  for (let i = 1; i < numbers.length; i++) if (numbers[i]! - numbers[i - 1]! === 1) ones++;
  return (
    numbers.length > 3 &&
    ones >= 0.9 * (numbers.length - 1) &&
    numbers.every((n) => Number.isInteger(n) || Number.isNaN(n))
  );
}

/**
 * Sorts columns by their units, then by their names; what you mapped in option `columns` comes first. Columns
 * that say nothing are taken for temperatures only when no column says that it is one.
 * @throws TemperbookError when nothing is left to be a temperature.
 */
export function temperatureColumns(
  samples: readonly ColumnSample[],
  clocks: ReadonlyMap<ColumnSample, string>,
  reading: Reading,
): ColumnUses {
  const { file, options, notes } = reading;
  const mapped = new Map(
    Object.entries(options.columns ?? {}).map(
      ([key, use]) => [findColumn(samples, key, 'columns', file), use] as const,
    ),
  );
  const asked = options.thermocouple?.referenceColumn;
  const reference =
    asked === undefined ? undefined : findColumn(samples, asked, 'thermocouple.referenceColumn', file);
  const guesses = new Map(
    samples
      .filter((s) => !mapped.has(s) && !clocks.has(s) && s !== reference)
      .map((s) => [s, guess(s, options.riseOverC)] as const),
  );
  const count = (wanted: Guess) => [...guesses.values()].filter((g) => g === wanted).length;
  const mappedIn = [...mapped.values()].some((use) => use !== false);
  const sure = count('temperature') > 0 || mappedIn;
  const temperatures = samples.filter((s) => mapped.get(s) || guesses.get(s) === 'temperature');
  const channelLike = [...guesses].filter(([s, g]) => g === 'perhaps' && CHANNEL_LIKE.test(s.column.stem));
  const takes = (sample: ColumnSample): boolean => {
    const use = mapped.get(sample);
    if (use !== undefined) return use !== false;
    const g = guesses.get(sample);
    if (g === 'temperature') return true;
    if (g === 'load' && sure) return readsLikeTemperatures(sample, temperatures);
    if ((g !== 'perhaps' && g !== 'load') || sure) return false;
    return channelLike.length === 0 || CHANNEL_LIKE.test(sample.column.stem);
  };
  const channels = samples
    .filter(takes)
    .map((sample) => ({ sample, name: mapped.get(sample) || sample.column.stem }));
  const foundReference = reference ?? [...guesses].find(([, g]) => g === 'reference')?.[0];
  // A lone reference junction is still a temperature.
  if (channels.length === 0 && foundReference && foundReference !== reference)
    channels.push({ sample: foundReference, name: foundReference.column.stem });
  if (channels.length === 0) throw noTemperature(samples, reading);
  if (!sure)
    notes.push(
      `No column says that it is a temperature; ${list(channels.map(({ sample }) => sample.column.name))} ${channels.length === 1 ? 'is' : 'are'} taken for one by what ${channels.length === 1 ? 'it holds' : 'they hold'}. Option columns says otherwise.`,
    );
  const isChannel = new Set(channels.map(({ sample }) => sample));
  const loads = samples.filter((s) => sure && guesses.get(s) === 'load' && isChannel.has(s));
  if (loads.length > 0)
    notes.push(
      `${list(loads.map(({ column }) => column.name))} ${loads.length === 1 ? 'is' : 'are'} taken for the temperature of a load, as ${loads.length === 1 ? 'it reads' : 'they read'} like the temperature columns. Option columns says otherwise.`,
    );
  const leftAside = samples
    .filter((sample) => !isChannel.has(sample) && !(sample.kind === 'empty' && !sample.column.named))
    .flatMap((sample): LeftAside[] => {
      const why = whyAside(sample);
      return why === undefined
        ? []
        : [{ name: sample.column.name, unit: sample.column.unit?.symbol ?? '', why }];
    });
  return { channels: unique(channels), ...(foundReference ? { reference: foundReference } : {}), leftAside };

  function whyAside(sample: ColumnSample): string | undefined {
    if (mapped.get(sample) === false) return 'you said so';
    const clock = clocks.get(sample);
    if (clock !== undefined) return clock === '' ? undefined : clock;
    if (sample === foundReference) return 'it is the reference junction (cold end) of the thermocouples';
    const g = guesses.get(sample);
    if (typeof g === 'object') return g.why;
    if (g === 'load')
      return 'it may be the load of a furnace or a force, and does not read like the temperature columns; option columns can take it in';
    return g === 'reference'
      ? 'it is a reference junction (cold end)'
      : 'neither its name nor its unit says that it is a temperature; option columns can take it in';
  }
}

/** Two channels may not share a name. */
function unique<T extends { readonly name: string }>(channels: readonly T[]): T[] {
  const seen = new Map<string, number>();
  return channels.map((channel) => {
    const times = (seen.get(channel.name) ?? 0) + 1;
    seen.set(channel.name, times);
    return times === 1 ? channel : { ...channel, name: `${channel.name} [${times}]` };
  });
}

const list = (names: readonly string[]) => names.map((name) => `"${name}"`).join(', ');

function noTemperature(samples: readonly ColumnSample[], reading: Reading): TemperbookError {
  const { file } = reading;
  return new TemperbookError('No column holds a temperature', {
    file,
    found: `columns ${list(samples.map(({ column }) => column.name))}`,
    expected: 'a column with °C, °F, K or mV in its name or in a units row',
    remedy: samples.some(({ column }) => isRise(column.stem))
      ? 'The columns hold rises: give the temperature they start from as option riseOverC (°C)'
      : 'Name the temperature columns in option columns, as { "column in the file": "channel name" }',
  });
}
