import {
  type ChannelVerdict,
  type PartAction,
  type ScenarioResult,
  VERDICT_IN_WORDS,
  type Verdict,
} from '../decision';
import type { ThermalLog } from '../log';
import type { RecoveryOption } from '../planning';
import { formatChance, formatDuration, formatKept, formatPercent, formatTemp } from '../quantity';
import { faultsByKind } from './faultsByKind';
import type { TableRow } from './table';

/** The short table of a verdict, one row per probe: for `showTable`, `exportTable` or `tableText`. */
export function verdictRows(verdict: Verdict): TableRow[] {
  return verdict.channels.map((channel) => ({
    Probe: channel.name,
    Verdict: VERDICT_IN_WORDS[channel.verdict],
    'Yield kept': formatKept(channel.yieldKeptFraction),
    'Ultimate kept': channel.ultimateKeptFraction ? formatKept(channel.ultimateKeptFraction) : 'not known',
    'Chance it is enough': chanceText(channel.chanceKept),
    Peak: formatTemp(channel.peakC.nominal),
    ...aboveLimit(channel),
  }));
}

/**
 * One row per probe and stretch of time in which heat may have gone unseen: when, and what to do about it. Empty where the
 * log holds everything.
 */
export function hiddenRows({
  channels,
  notJudged,
}: {
  readonly channels: readonly Pick<ChannelVerdict, 'name' | 'blind'>[];
  readonly notJudged: Verdict['notJudged'];
}): TableRow[] {
  return [
    ...channels.flatMap(({ name, blind }) =>
      blind.map(({ fromS, toS, because }) => ({
        Probe: name,
        When:
          toS > fromS ? `${formatDuration(fromS)} to ${formatDuration(toS)}` : `at ${formatDuration(fromS)}`,
        'What it may hide, and what to do': because,
      })),
    ),
    ...notJudged
      .filter(({ isOnPart }) => isOnPart)
      .map(({ name, because }) => ({
        Probe: name,
        When: 'all along',
        'What it may hide, and what to do': because,
      })),
  ];
}

/** Time above the shop limit, the first of a channel's limits: "81 s above 227 °C (440 °F)". */
function aboveLimit({ limits: [shop] }: ChannelVerdict): TableRow {
  if (!shop) return {};
  const { nominal, high } = shop.timeAboveS;
  const time = shop.crossed
    ? formatDuration(nominal)
    : high > 0
      ? `as read never, the metal up to ${formatDuration(high)}`
      : 'never';
  return { 'Above the limit': `${time} above ${formatTemp(shop.limitC)}` };
}

/** One row per pass and probe: where it started, how hot it got, its share of the whole exposure. */
export function passRows(verdict: Verdict): TableRow[] {
  return verdict.channels.flatMap(({ name, passes, passShare }) =>
    passes.map((pass, k) => ({
      Probe: name,
      Pass: pass.number,
      Start: formatDuration(pass.startS),
      Interpass: formatTemp(pass.interpassC),
      Peak: formatTemp(pass.peakC),
      'Fastest heating': `${pass.heatingRateKPerS.toFixed(1)} °C/s`,
      'Share of the exposure': formatPercent(passShare[k] ?? 0),
    })),
  );
}

/** One row per probe and doubt: how far it moves the answer by itself. */
export function doubtRows(verdict: Verdict): TableRow[] {
  return verdict.channels.flatMap(({ name, doubts }) =>
    doubts.map(({ of, drop, rise }) => ({
      Probe: name,
      'Doubt about': of,
      Down: formatPercent(drop),
      Up: formatPercent(rise),
    })),
  );
}

/** One row per kind of fault and channel: how many readings it took, and the first of them. */
export function faultRows(log: ThermalLog): TableRow[] {
  return log.channels.flatMap(({ name, faults }) =>
    faultsByKind(faults).map(({ first, readings }) => ({
      Probe: name,
      Fault: first.kind,
      'Readings left out': readings,
      'First in row': first.row,
      'What stood there': first.value,
      Why: first.reason,
    })),
  );
}

const chanceText = (chance: number | null): string => (chance === null ? 'not known' : formatChance(chance));

/** One row per way to go on with the part: what the deciding place keeps, and what stands against it. */
export function wayRows({ ways }: PartAction): TableRow[] {
  return ways.map(({ name, yieldKeptFraction, chanceKept, timeS, forbiddenBy, askFirst }) => ({
    'Way to go on': name,
    'Yield kept': yieldKeptFraction ? formatKept(yieldKeptFraction) : '',
    'Chance it is enough': yieldKeptFraction ? chanceText(chanceKept) : '',
    Takes: timeS === 0 ? '' : formatDuration(timeS),
    'Against it':
      forbiddenBy.length > 0
        ? `forbidden: ${forbiddenBy[0]}`
        : askFirst.length > 0
          ? `${askFirst.length} to ask first (record)`
          : '',
  }));
}

/** One row per scenario, in the order given (`compareScenarios` ranks them). */
export function scenarioRows(results: readonly ScenarioResult[]): TableRow[] {
  return results.map(({ name, timeSpentS, verdict }, k) => ({
    Rank: k + 1,
    Scenario: name,
    Verdict: VERDICT_IN_WORDS[verdict.verdict],
    'Yield kept': formatKept(verdict.yieldKeptFraction),
    'Time spent': formatDuration(timeSpentS),
    Peak: formatTemp(verdict.peakC.nominal),
    ...aboveLimit(verdict),
  }));
}

/** One row per way to go on after welding. */
export function recoveryRows(options: readonly RecoveryOption[]): TableRow[] {
  return options.map(({ name, yieldKeptFraction, verdict, timeS, remark }) => ({
    Option: name,
    'Yield kept': formatKept(yieldKeptFraction),
    Verdict: VERDICT_IN_WORDS[verdict],
    Takes: timeS === 0 ? 'no time' : formatDuration(timeS),
    Remark: remark,
  }));
}
