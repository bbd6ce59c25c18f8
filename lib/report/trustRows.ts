import { formatPercent, formatTemp } from '../quantity';
import {
  type ClockFactor,
  groupTrust,
  type TrustRow,
  type TrustSummary,
  type WeldZoneRow,
} from '../validation';
import type { ResidualRow } from './residualRow';
import type { TableRow } from './table';

/** One row per measurement and model: what was measured, what the model says, how far its clock is off. */
export function trustRows(rows: readonly TrustRow[]): TableRow[] {
  return rows.map(({ model, fact, nominal, low, high, insideBand, timeFactor }) => {
    const peak = fact.kind === 'peak';
    const say = (value: number): string => inFactUnit(fact, value);
    return {
      Alloy: fact.alloy,
      Exposure: fact.exposureText,
      Measured: measuredText(fact),
      Model: model,
      'It says': nominal === null ? 'no peak' : peak ? `peak at ${times(nominal)} the time` : say(nominal),
      Band: low === undefined || high === undefined ? '' : `${say(low)} to ${say(high)}`,
      'Inside the band': insideBand === null ? '' : insideBand ? 'yes' : 'no',
      Clock: clockText(timeFactor),
    };
  });
}

/**
 * One row per measurement, one column per model: what it says, marked where it was fitted to that very measurement,
 * and how many standard errors of the measurement it is off.
 */
export function sideBySideRows(rows: readonly TrustRow[]): TableRow[] {
  const byFact = groupTrust(rows, ({ fact }) => `${fact.dataSet} ${fact.alloy} ${fact.id}`);
  return Array.from(byFact.values(), (answers) => {
    const { fact } = answers[0]!;
    const says = ({ nominal, residual, fitted }: TrustRow): string => {
      if (nominal === null) return 'no peak';
      const value = fact.kind === 'peak' ? `${short(nominal)} ×` : inFactUnit(fact, nominal);
      const off = residual === null ? '' : ` (${Math.abs(residual).toFixed(1)})`;
      return `${value}${off}${fitted ? ' fitted' : ''}`;
    };
    return {
      Alloy: fact.alloy,
      Exposure: fact.exposureText,
      Measured: measuredText(fact),
      ...Object.fromEntries(answers.map((answer) => [answer.model, says(answer)])),
    };
  });
}

const inFactUnit = ({ temper }: TrustRow['fact'], value: number): string =>
  temper ? formatPercent(value) : `${Math.round(value)} MPa`;
const measuredText = (fact: TrustRow['fact']): string =>
  fact.kind === 'peak' ? 'peak' : `${SIDE[fact.kind]}${inFactUnit(fact, fact.value)}`;
const SIDE = { value: '', atLeast: 'over ', below: 'below ', peak: '' } as const;

/** One row per group of measurements: how often and how far a model is off. */
export function trustSummaryRows(
  groups: Iterable<readonly [string, TrustSummary]>,
  what = 'Model',
): TableRow[] {
  return Array.from(groups, ([name, s]) => ({
    [what]: name,
    Measurements: s.facts,
    'Fitted to': s.fitted,
    'Within measuring doubt': `${s.withinDoubt} of ${s.facts}`,
    'Typical miss':
      s.rmsFraction === null
        ? ''
        : `${formatPercent(s.rmsFraction)} (${s.values} ${s.values === 1 ? 'value' : 'values'})`,
    Leans:
      s.biasFraction === null
        ? ''
        : Math.abs(s.biasFraction) < 0.005
          ? 'to neither side'
          : `${formatPercent(Math.abs(s.biasFraction))} too ${s.biasFraction < 0 ? 'low' : 'high'}`,
    'Inside its band': s.banded === 0 ? 'has none' : `${s.inBand} of ${s.banded}`,
    Clock: clockText(s.clock),
  }));
}

/** One row per alloy: the soft zone beside a weld, by the kit and by the code. */
export function weldZoneRows(rows: readonly WeldZoneRow[]): TableRow[] {
  return rows.map(({ alloy, peakC, yieldMPa, codeMPa, lowLessCodeMPa, source }) => ({
    Alloy: `${alloy}-T6`,
    'Weakest where the peak was': formatTemp(peakC),
    'Yield there': `${Math.round(yieldMPa.nominal)} MPa (${Math.round(yieldMPa.low)} to ${Math.round(yieldMPa.high)})`,
    'The code gives': `${Math.round(codeMPa)} MPa`,
    '5 % line less the code': `${lowLessCodeMPa < 0 ? '−' : '+'}${Math.abs(Math.round(lowLessCodeMPa))} MPa`,
    Source: source,
  }));
}

/** For `residualFigure`: measured strength in % of the yield before, and what each model says of it. */
export function trustFigureRows(rows: readonly TrustRow[]): ResidualRow[] {
  const byFact = groupTrust(rows, ({ fact }) => `${fact.dataSet} ${fact.alloy} ${fact.id}`);
  return Array.from(byFact.values(), (answers) => {
    const { fact } = answers[0]!;
    const soaks = fact.exposureText.replace(/ \([^)]*\)/g, '');
    return {
      label: `${fact.alloy} ${soaks}: ${SIDE[fact.kind]}${formatPercent(fact.value)}`,
      measured: fact.value * 100,
      models: answers.flatMap(({ model, nominal, low, high }) =>
        nominal === null
          ? []
          : [
              {
                name: model,
                nominal: nominal * 100,
                ...(low !== undefined && high !== undefined ? { low: low * 100, high: high * 100 } : {}),
              },
            ],
      ),
    };
  });
}

/** "4 times too slow (3 to 5)", or on which side of a factor the clock lies. */
export function clockText(clock: ClockFactor | null): string {
  if (!clock) return '';
  const { low, nominal, high } = clock;
  if (nominal !== null) {
    const off = Math.max(nominal, 1 / nominal) < NOTICEABLE ? 'right' : offBy(nominal);
    const range = [low, high].map((end) => (end === null ? '?' : short(end))).join(' to ');
    return `${off} (factor ${range})`;
  }
  if (low !== null && high !== null) return `factor ${short(low)} to ${short(high)}`;
  if (high !== null) return `${high >= 1 ? 'at most' : 'at least'} ${offBy(high)}`;
  if (low !== null) return `${low > 1 ? 'at least' : 'at most'} ${offBy(low)}`;
  return 'these measurements do not tell';
}

/** Nobody times a soak better than this. */
const NOTICEABLE = 1.15;

const offBy = (factor: number): string =>
  factor >= 1 ? `${times(factor)} too slow` : `${times(1 / factor)} too fast`;
const times = (factor: number): string => `${short(factor)} times`;
const short = (factor: number): string => String(Number(factor.toPrecision(2)));
