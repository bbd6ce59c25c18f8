import { formatChance, formatDuration, formatKept, formatPercent, formatTemp } from '../quantity';
import {
  type FormScore,
  type MeasuredWord,
  type ScoreLine,
  SPIKE_DOUBTS,
  type SpikeWord,
} from '../validation';
import type { TableRow } from './table';

const NONE = '–';
/** "3.1 %": a share of the yield to a tenth of a percent. */
const fine = (value: number): string => `${(100 * value).toFixed(1)} %`;
const signed = (value: number): string => `${value < 0 ? '−' : '+'}${fine(Math.abs(value))}`;
const orNone = (value: number | null, text: (value: number) => string): string =>
  value === null ? NONE : text(value);

/** The scoreboard, one row per group and model; interval scores in percent of the yield, the less the better. */
export function scoreRows(lines: readonly ScoreLine[], what: string): TableRow[] {
  return lines.map((line) => ({
    [what]: line.group,
    Model: line.model,
    'Rows (lots)': `${line.rows} (${line.lots})`,
    Bias: orNone(line.bias, signed),
    'Root mean square': orNone(line.rms, fine),
    'Factor in time': orNone(line.timeFactor, (factor) => String(Number(factor.toPrecision(2)))),
    'In the 90 % band': formatPercent(line.coverage),
    'Chance of such misses': formatChance(line.chanceOfMisses),
    'Half-width': fine(line.halfWidth),
    'Interval score': orNone(line.intervalScore, fine),
    'Before the fit': orNone(line.frozenScore, fine),
  }));
}

/** Forms of the softening curve that were tried, the one the members have first. */
export function formRows(forms: readonly FormScore[]): TableRow[] {
  return forms.map((form) => ({
    Form: form.form,
    Unknowns: form.unknowns,
    'Fitted rows': fine(form.rms),
    'Temperatures left out': fine(form.leftOutRms),
    'Lots left out (standard errors squared)': Number(form.lotsLeftOut.toPrecision(2)),
    'Kept after 10 s at 300 °C (572 °F)': formatPercent(form.keptAfter10sAt300C),
  }));
}

/** The answer in sentences: wrong words first, then how the held-out rows fared. */
export function trustSentences(words: readonly MeasuredWord[], unseen: ScoreLine): string[] {
  const wrong = words.filter((one) => one.wrong).length;
  const known = words.filter(({ truth }) => truth !== null);
  const sure = known.filter(({ word }) => word !== 'uncertain').length;
  return [
    `Wrong words, kept where it was lost or lost where it was kept: ${wrong === 0 ? 'none' : wrong} of ${words.length} measured parts.`,
    `Of ${known.length} whose truth is known, ${sure} got a sure word and ${known.length - sure} "uncertain".`,
    `Rows held back from the fit: ${formatPercent(unseen.coverage)} of ${unseen.rows} inside the 90 % band, root mean square ${orNone(unseen.rms, fine)} of the yield, interval score ${orNone(unseen.intervalScore, fine)} (before the fit ${orNone(unseen.frozenScore, fine)}).`,
  ];
}

/** How often each word met each truth. */
export function wordRows(words: readonly MeasuredWord[]): TableRow[] {
  const count = (word: MeasuredWord['word'], truth: MeasuredWord['truth']): number =>
    words.filter((one) => one.word === word && one.truth === truth).length;
  return (['kept', 'uncertain', 'lost'] as const).map((word) => ({
    'The word': word,
    'Measured kept': count(word, 'kept'),
    'Measured lost': count(word, 'lost'),
    'Only a side measured': count(word, null),
  }));
}

/** Words one by one, as for those that are wrong. */
export function measuredWordRows(words: readonly MeasuredWord[]): TableRow[] {
  return words.map(({ row, alloy, word, chanceKept, yieldKeptFraction, truth }) => ({
    Alloy: alloy,
    Exposure: row.exposure
      .map((step) =>
        'tempC' in step
          ? `${formatDuration(step.timeS)} at ${formatTemp(step.tempC)}`
          : `weld cycle to ${formatTemp(step.weldCycle.peakC)}`,
      )
      .join(', then '),
    Measured: `${SIDE[row.measured.kind]}${formatPercent(row.measured.value)}`,
    'It says': formatKept(yieldKeptFraction),
    Chance: orNone(chanceKept, formatChance),
    Word: word,
    Truth: truth ?? 'only a side',
    'How known': row.known,
    Source: row.source,
  }));
}
const SIDE = { value: '', atLeast: 'over ', below: 'below ', peak: '' } as const;

/** "6061-T6: 12 % of 279 spikes are uncertain". */
export function spikeTitle(alloy: string, spikes: readonly SpikeWord[], temper = 'T6'): string {
  const uncertain = spikes.filter(({ word }) => word === 'uncertain').length;
  return `${alloy}-${temper}: ${formatPercent(uncertain / spikes.length)} of ${spikes.length} spikes are uncertain`;
}

/** What makes the uncertain spikes uncertain, the commonest doubt first, and the coupon that would settle it. */
export function spikeDoubtRows(spikes: readonly SpikeWord[]): TableRow[] {
  const uncertain = spikes.filter(({ word }) => word === 'uncertain');
  return SPIKE_DOUBTS.map(({ name, settledBy }) => {
    const shares = uncertain.map(({ doubts }) => doubts.find((doubt) => doubt.name === name)?.share ?? 0);
    return {
      name,
      settledBy,
      first: uncertain.filter(({ doubts }) => doubts[0]?.name === name).length,
      share: shares.length > 0 ? shares.reduce((sum, share) => sum + share, 0) / shares.length : 0,
    };
  })
    .filter(({ first, share }) => first > 0 || share >= NOTICEABLE)
    .sort((a, b) => b.share - a.share)
    .map(({ name, settledBy, first, share }) => ({
      'Doubt about': name,
      'Explains of the scatter': formatPercent(share),
      'Foremost in': `${first} of ${uncertain.length}`,
      'What would settle it': settledBy,
    }));
}
const NOTICEABLE = 0.02;
