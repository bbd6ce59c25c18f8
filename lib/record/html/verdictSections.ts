import { bestWitness } from '../../figure';
import { formatDuration, formatPercent, formatTemp } from '../../quantity';
import type { ConsideredOption, RecordedVerdict } from '../decisionRecord';
import { type Html, html } from './html';
import {
  durationText,
  KNOWN_IN_WORDS,
  keptBar,
  keptText,
  list,
  section,
  table,
  tempText,
  wordOf,
  yieldText,
} from './parts';

type Channels = RecordedVerdict['channels'];

/** Every probe in one row, the answer last. */
export function probes({ channels, allowanceFraction }: RecordedVerdict): Html {
  const limit = channels[0]?.limits[0];
  const rows = channels.map((channel) => {
    const above = channel.limits.find(({ name }) => name === limit?.name)?.timeAboveS;
    return [
      channel.name,
      tempText(channel.peakC),
      above && above.high > 0 ? durationText(above) : 'never',
      html`${keptText(channel.yieldKeptFraction)}${keptBar(channel.yieldKeptFraction, 1 - allowanceFraction)}`,
      yieldText(channel.yieldMPa),
      channel.ultimateKeptFraction ? keptText(channel.ultimateKeptFraction) : 'not known',
      wordOf(channel.verdict),
    ];
  });
  const columns = [
    'Probe',
    'Peak',
    limit ? `Above ${limit.name}` : 'Above the limit',
    'Yield kept',
    'Yield now',
    'Ultimate kept',
    'Verdict',
  ];
  return section('Each probe', [
    html`<div class="keep">${table(columns, rows, 'probes')}</div>`,
    html`<p class="note">Bars run from 40 to 120 % of the yield before welding, and stop there: the dot is the value, the stripe its band, the upright line the ${formatPercent(1 - allowanceFraction)} you asked for.</p>`,
  ]);
}

/** How much heat each probe's place can still take. */
export const heatLeft = ({ channels }: RecordedVerdict): Html =>
  section(
    'Heat left: a soak, not a weld pass',
    table(
      ['Probe', 'What is left'],
      channels.map(({ name, budget }) => [name, budget.sentence]),
    ),
  );

/** How each probe's answer came about: what the record leaves open and what each doubt does by itself. */
export function reasons({ channels }: RecordedVerdict): Html {
  return section(
    'How the verdict was reached',
    channels.map(
      ({ name, sentence, yieldKeptFraction, asReadFraction, doubts }) =>
        html`<div><h3>${name}</h3><p>${sentence}</p>${list([
          `The record exactly as it was read would leave ${formatPercent(asReadFraction)}.`,
          ...yieldKeptFraction.because,
        ])}${table(
          ['Doubt about', 'Brings it down by', 'Up by'],
          doubts.map(({ of, drop, rise }) => [of, formatPercent(drop), formatPercent(rise)]),
        )}</div>`,
    ),
  );
}

/** What makes two limits the same: those of casting and tube may share a name. */
const limitKey = ({ name, limitC, meaning }: Limit): string => [name, limitC, meaning].join('|');
type Limit = Channels[number]['limits'][number];

/** Each limit once, with the probes it is for and the time each spent above it. */
export function limits({ channels }: RecordedVerdict): Html | undefined {
  const first = new Map(
    channels.flatMap((channel) => channel.limits.map((limit) => [limitKey(limit), limit] as const)),
  );
  if (first.size === 0) return undefined;
  return section(
    'Temperature limits',
    table(
      ['Limit', 'Temperature', 'What it means', 'How it is known', 'Time above it'],
      [...first.values()].map((limit) => [
        limit.name,
        formatTemp(limit.limitC),
        limit.meaning,
        KNOWN_IN_WORDS[limit.known],
        timesAbove(channels, limitKey(limit)),
      ]),
    ),
  );
}

function timesAbove(channels: Channels, key: string): string {
  const under = channels.flatMap(({ name, limits }) =>
    limits.filter((limit) => limitKey(limit) === key).map(({ timeAboveS }) => ({ name, timeAboveS })),
  );
  const crossed = under.filter(({ timeAboveS }) => timeAboveS.high > 0);
  if (crossed.length > 0)
    return crossed.map(({ name, timeAboveS }) => `${name}: ${durationText(timeAboveS)}`).join('; ');
  return under.length === channels.length
    ? 'no probe went above it'
    : `never: ${under.map(({ name }) => name).join(', ')}`;
}

/** Passes as found in the trace of the probe that shows them best; the others' are in the JSON file. */
export function passes({ channels }: RecordedVerdict): Html | undefined {
  const witness = bestWitness(channels);
  if (!witness || witness.passes.length === 0) return undefined;
  return section(`Passes found at ${witness.name}`, [
    table(
      ['Pass', 'Began after', 'Metal before it', 'Peak', 'Share of the exposure'],
      witness.passes.map((pass, i) => [
        `pass ${pass.number}`,
        formatDuration(pass.startS),
        formatTemp(pass.interpassC),
        formatTemp(pass.peakC),
        formatPercent(witness.passShare[i] ?? 0),
      ]),
    ),
    html`<p class="note">Passes of the other probes are in the JSON file of this record.</p>`,
  ]);
}

/** Channels that were not judged, and why. */
export function notJudged({ notJudged: left }: RecordedVerdict): Html | undefined {
  return left.length > 0
    ? section(
        'Not judged',
        table(
          ['Channel', 'Why'],
          left.map(({ name, because }) => [name, because]),
        ),
      )
    : undefined;
}

/** Ways to go on, or ways it could have run, side by side. */
export function options(
  considered: readonly ConsideredOption[],
  { allowanceFraction }: RecordedVerdict,
): Html | undefined {
  if (considered.length === 0) return undefined;
  return section(
    'Options considered',
    table(
      ['Option', 'Yield kept', 'Verdict', 'Time', 'Remark'],
      considered.map((option) => [
        option.name,
        html`${keptText(option.yieldKeptFraction)}${keptBar(option.yieldKeptFraction, 1 - allowanceFraction)}`,
        option.verdict ? wordOf(option.verdict) : '',
        option.timeS === undefined ? '' : formatDuration(option.timeS),
        option.remark ?? '',
      ]),
      'options',
    ),
  );
}
