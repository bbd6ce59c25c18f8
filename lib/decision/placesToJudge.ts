import { type AlloyCard, loadAlloy, meltsFromC } from '../alloy';
import { condense, type Exposure } from '../exposure';
import { checkHistory, type ThermalHistory } from '../history';
import type { LogChannel, ThermalLog } from '../log';
import { knownOptions, requireList, requireNumber, TemperbookError } from '../quantity';
import { drawMetals, type MeasuredBefore, measuredOf, measuredYield } from '../strength';
import { type PlacesToJudge, type PlaceToJudge, probePlace } from './judgeChannel';

import { CHANNEL_OPTIONS, type ChannelOptions, type ProbeRole } from './judgeOptions';
import type { NamedOptions } from './metalsNamed';

import { type PartExposures, placesGiven } from './places/partExposures';
import type { NotJudged } from './verdict';
import { type LogSays, whatLogSays } from './whatLogSays';

type NamedHistory = Pick<LogChannel, 'name' | 'history'>;

/**
 * Every channel of a record ready to judge: what its metal saw (`probeExposure`), and what the metal is.
 * `isRunning`: the log is still being written, so its end is no end (`ProbeRecord`).
 * @throws TemperbookError as `judge`.
 */
export function placesToJudge(
  record: ThermalLog | ThermalHistory | Exposure | PartExposures,
  options: NamedOptions,
  allowanceFraction: number,
  onPlace: (share: number) => void = () => undefined,
  isRunning = false,
): PlacesToJudge {
  if (typeof record === 'object' && record !== null && 'places' in record)
    return placesGiven(record, options, allowanceFraction);
  const channels = channelsOf(record);
  checkChannelOptions(channels, options.byChannel ?? {});
  const trusted = channels.filter(({ history }) => history.timeS.length > 0);
  const says = 'channels' in record ? whatLogSays(record, options) : NOTHING_SAID;
  const spanS = spanOf(trusted, 'channels' in record && !isRunning ? record.lastRowS : undefined);
  const ambientC =
    options.ambientC === undefined
      ? airRound(coldestEarly(trusted, spanS[0]))
      : requireNumber(options.ambientC, 'The air round the part in °C', { low: -90, high: 600 });
  const roleOf = (name: string): ProbeRole => {
    const own = options.byChannel?.[name];
    const said = own?.role ?? options.role;
    if (said !== undefined) return said;
    const role = says.roleOf(name);
    return role === 'not said' && own?.alloy !== undefined ? 'part' : role;
  };
  const onPart = trusted.filter(({ name }) => roleOf(name) === 'part');
  const neighbours = new Map(onPart.map((one) => [one.name, condense(one.history)]));
  const air = trusted.filter(({ name }) => roleOf(name) === 'air').map(({ history }) => history);
  const places: PlaceToJudge[] = [];
  const notJudged: NotJudged[] = [];
  let refused: TemperbookError | undefined;
  for (const [k, { name, history }] of channels.entries()) {
    onPlace(k / channels.length);
    const own: ChannelOptions = { ...options, ...options.byChannel?.[name] };
    const role = roleOf(name);
    if (role !== 'part') {
      notJudged.push({ name, isOnPart: role === 'not said', because: WHY_NOT[role] });
      continue;
    }
    if (history.timeS.length === 0) {
      const because =
        'It has no reading that can be trusted, so nothing is known of the metal there: look at its faults and measure there, or say that no probe is connected (role "unused").';
      notJudged.push({ name, isOnPart: true, because });
      continue;
    }
    const alloy = loadAlloy(own.alloy ?? options.alloy);
    const start = startOfChannel(
      alloy,
      own.temper ?? options.temper,
      measuredOf(options, options.byChannel?.[name]),
    );
    if (start instanceof TemperbookError) {
      refused ??= start;
      notJudged.push({ name, isOnPart: true, because: start.message });
      continue;
    }
    const earlier = requireList(own.earlier ?? [], 'Earlier heats');
    const common = {
      name,
      spanS,
      card: alloy,
      ...start,
      earlier,
      allowanceFraction,
      limitC: options.limitC,
    };
    places.push(
      'doubts' in record
        ? { ...common, history, exposure: record }
        : probePlace({
            ...common,
            record: {
              history,
              neighbours: [...neighbours].flatMap(([other, condensed]) =>
                other === name ? [] : [condensed],
              ),
              spanS,
              isRunning,
              probe: {
                ambientC,
                thermocouple: says.thermocouple ?? options.thermocouple,
                attachment: own.attachment,
                check: own.check,
                isOven: options.isOven,
                areMeans: options.areMeans ?? says.areMeans(name),
                meansOverS: options.areMeans === false ? undefined : says.meansOverS(name),
                isPlan: !('channels' in record),
              },
              air,
              restarts: 'channels' in record ? record.restarts : undefined,
              cannotClear: [...says.cannotClear(name, own), ...(own.check?.faults ?? [])],
              earlierIsKnown: earlier.length > 0,
              meltsFromC: meltsFromC(alloy),
            },
          }),
    );
  }
  if (places.length === 0 && refused) throw refused;
  if (places.length === 0)
    throw new TemperbookError('This log has no channel that can be judged', {
      file: 'channels' in record ? record.source.name : undefined,
      found: notJudged.map(({ name, because }) => `${name}: ${because}`).join(' ') || 'no channel at all',
      remedy: 'Look at the faults of each channel; options of the reader can change limits and units',
    });
  return { places, notJudged };
}

/** Why a channel is not judged that does not read metal somebody named. */
const WHY_NOT: Readonly<Record<Exclude<ProbeRole, 'part'>, string>> = {
  air: 'It reads the air, not the part.',
  unused: 'No probe is connected.',
  'not said': 'Nobody said what metal it sits on, and its name speaks of another than the rest: say it.',
};

const NOTHING_SAID: LogSays = {
  roleOf: () => 'part',
  areMeans: () => false,
  meansOverS: () => undefined,
  cannotClear: () => [],
};

/**
 * What the metal of a channel starts from; or why it cannot be judged, which is no reason to leave out the others: a temper
 * that the alloy does not have, a measured yield that the temper cannot have.
 */
function startOfChannel(
  card: AlloyCard,
  temper: string,
  measured: MeasuredBefore,
): Pick<PlaceToJudge, 'temper' | 'measuredYieldMPa'> | TemperbookError {
  try {
    const measuredYieldMPa = measuredYield(measured, card);
    drawMetals({ alloy: card, temper, measuredYieldMPa }, 1);
    return { temper, measuredYieldMPa };
  } catch (error) {
    if (error instanceof TemperbookError) return error;
    throw error;
  }
}

function channelsOf(record: ThermalLog | ThermalHistory | Exposure): NamedHistory[] {
  if (typeof record !== 'object' || record === null)
    throw new TemperbookError('There is nothing to judge', {
      found: String(record),
      expected: 'a log (readLog), a thermal history or an exposure',
    });
  if ('channels' in record) return [...record.channels];
  const history = 'doubts' in record ? record.history : record;
  checkHistory(history);
  return [{ name: 'history', history }];
}

function checkChannelOptions(
  channels: readonly NamedHistory[],
  byChannel: Readonly<Record<string, ChannelOptions>>,
): void {
  const names = channels.map(({ name }) => name);
  for (const [name, own] of Object.entries(byChannel)) {
    if (!names.includes(name))
      throw new TemperbookError('Options are given for a channel the log does not have', {
        found: `"${name}"`,
        expected: `one of ${names.map((n) => `"${n}"`).join(', ')}`,
      });
    knownOptions(own, CHANNEL_OPTIONS, `judge, for the channel "${name}",`);
  }
}

/** From the first trusted reading to the last row: what came between the last reading and that is not known. */
function spanOf(channels: readonly NamedHistory[], lastRowS = Number.NEGATIVE_INFINITY): [number, number] {
  let from = Number.POSITIVE_INFINITY;
  let to = lastRowS;
  for (const { history } of channels) {
    from = Math.min(from, history.timeS[0]!);
    to = Math.max(to, history.timeS[history.timeS.length - 1]!);
  }
  return [from, to];
}

/** Warmer than this the coldest reading is metal, not air, °C; then a cool shop is the worst case. */
const WARMEST_AIR_C = 40;
const COOL_SHOP_C = 20;
const airRound = (coldestC: number): number => (coldestC > WARMEST_AIR_C ? COOL_SHOP_C : coldestC);

/** The air round the part as the log shows it: the coldest reading of the first minute. */
function coldestEarly(channels: readonly NamedHistory[], startS: number): number {
  let coldest = Number.POSITIVE_INFINITY;
  for (const { history } of channels)
    for (let i = 0; i < history.timeS.length && (i === 0 || history.timeS[i]! <= startS + 60); i++)
      coldest = Math.min(coldest, history.tempC[i]!);
  return coldest;
}
