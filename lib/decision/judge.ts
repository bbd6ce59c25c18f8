import { type AlloyCard, loadAlloy } from '../alloy';
import { checkHistory, type ThermalHistory } from '../history';
import type { LogChannel, ThermalLog } from '../log';
import { requireNumber, TemperbookError } from '../quantity';
import {
  type ChannelOptions,
  DEFAULT_ALLOWANCE,
  type JudgeOptions,
  measuredOf,
  measuredYield,
} from '../strength';
import { assumptionsOf } from './assumptions';
import { CAUTIONS } from './cautions';
import { type ChannelCase, judgeChannel } from './judgeChannel';
import type { Verdict } from './verdict';
import { verdictSentence } from './wording';
import { WORST_FIRST } from './worstChannel';

/**
 * Judges what a log, or a single history, did to the temper of the metal: per channel the yield kept with its
 * band, the limits crossed, the verdict against the allowance, and what to do next. See `judgeChannel` for how
 * the band is made.
 * @throws TemperbookError for an unknown alloy or temper, an allowance outside 0–1, a channel named in
 * `byChannel` that the log does not have, or a log without one trusted reading.
 */
export function judge(record: ThermalLog | ThermalHistory, options: JudgeOptions): Verdict {
  const allowanceFraction = requireNumber(
    options.allowanceFraction ?? DEFAULT_ALLOWANCE,
    'Allowed loss of yield (as a fraction, 0.1 for 10 %)',
    { low: 0, high: 1 },
  );
  const channels = channelsOf(record);
  checkNames(channels, options.byChannel ?? {});
  const spanS = spanOf(channels);
  const ambientC =
    options.ambientC === undefined
      ? airRound(coldestEarly(channels, spanS[0]))
      : requireNumber(options.ambientC, 'The air round the part in °C', { low: -90, high: 600 });
  const cards = new Map<AlloyCard | string, AlloyCard>();
  const cardOf = (alloy: AlloyCard | string): AlloyCard => {
    const card = cards.get(alloy) ?? loadAlloy(alloy);
    cards.set(alloy, card);
    return card;
  };
  const cases = channels.map(({ name, history }): ChannelCase => {
    const own: ChannelOptions = { ...options, ...options.byChannel?.[name] };
    return {
      name,
      history,
      neighbours: channels.filter((other) => other.name !== name).map((other) => other.history),
      spanS,
      card: cardOf(own.alloy ?? options.alloy),
      temper: own.temper ?? options.temper,
      measuredYieldMPa: measuredYield(
        measuredOf(options, options.byChannel?.[name]),
        cardOf(own.alloy ?? options.alloy),
      ),
      probe: {
        ambientC,
        thermocouple: options.thermocouple,
        attachment: own.attachment,
        sampled: 'channels' in record,
      },
      allowanceFraction,
      limitC: options.limitC,
    };
  });
  const judgedChannels = cases.map(judgeChannel);
  const verdict = WORST_FIRST.find((word) => judgedChannels.some((c) => c.verdict === word))!;
  return {
    alloy: cardOf(options.alloy).designation,
    temper: options.temper,
    allowanceFraction,
    verdict,
    sentence: verdictSentence(verdict, judgedChannels),
    channels: judgedChannels,
    assumptions: assumptionsOf(cases),
    cautions: CAUTIONS,
  };
}

type NamedHistory = Pick<LogChannel, 'name' | 'history'>;

function channelsOf(record: ThermalLog | ThermalHistory): NamedHistory[] {
  if (!('channels' in record)) {
    checkHistory(record);
    return [{ name: 'history', history: record }];
  }
  const trusted = record.channels.filter(({ history }) => history.timeS.length > 0);
  if (trusted.length === 0)
    throw new TemperbookError('No channel of this log has a reading that can be trusted', {
      file: record.source.name,
      found: `${record.channels.length} channels, all faults`,
      remedy: 'Look at the faults of each channel; options of the reader can change limits and units',
    });
  return trusted;
}

function checkNames(channels: readonly NamedHistory[], byChannel: Readonly<Record<string, unknown>>): void {
  const names = channels.map(({ name }) => name);
  for (const name of Object.keys(byChannel))
    if (!names.includes(name))
      throw new TemperbookError('Options are given for a channel the log does not have', {
        found: `"${name}"`,
        expected: `one of ${names.map((n) => `"${n}"`).join(', ')}`,
      });
}

function spanOf(channels: readonly NamedHistory[]): [number, number] {
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
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
