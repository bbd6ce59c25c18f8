import { formatChance, formatPercent } from '../../quantity';
import { type Reading, SCALES } from '../../verify';
import type { Change, DecisionRecord } from '../decisionRecord';
import { JOB_FIELDS, type JobFieldName } from '../jobSheet';

type Content = Pick<
  DecisionRecord,
  'job' | 'verdict' | 'log' | 'options' | 'decision' | 'readings' | 'signOff' | 'versions' | 'partHashes'
>;

/** Parts that say what edition this is, not what the record is about. */
export const OF_THE_EDITION: readonly string[] = ['edition', 'before', 'changes', 'writtenAt'];

/** What an edition says otherwise than the one before it, line by line. */
export function changesBetween(before: Content, now: Content): Change[] {
  const was = factsOf(before);
  const is = factsOf(now);
  const told = [...new Set([...was.keys(), ...is.keys()])]
    .filter((what) => was.get(what) !== is.get(what))
    .map((what) => ({ what, was: was.get(what) ?? NOTHING, now: is.get(what) ?? NOTHING }));
  return told.length > 0 ? told : [{ what: 'Details', was: 'as before', now: differentParts(before, now) }];
}

const NOTHING = 'nothing';

/** Every fact of a record that a reader would want compared, by what it is called. */
function factsOf({ job, verdict, log, options, decision, readings, signOff, versions }: Content) {
  const { alloy, temper, allowanceFraction, channels } = verdict;
  return new Map<string, string>([
    ['Metal', `${alloy}-${temper}`],
    ['Loss allowed', formatPercent(allowanceFraction)],
    ['Verdict', verdict.verdict],
    ['What to do', verdict.action.headline],
    ['Chance that the part keeps enough', chanceText(verdict.chanceKept)],
    ...channels.flatMap(
      ({ name, alloy: metal, temper: state, verdict: word, ...one }): [string, string][] => {
        const { nominal, low, high } = one.yieldKeptFraction;
        const kept = `${formatPercent(nominal)} (${formatPercent(low)} to ${formatPercent(high)})`;
        return [
          [`Probe ${name}`, `${metal}-${state}: ${word}, ${kept}, chance ${chanceText(one.chanceKept)}`],
        ];
      },
    ),
    ...verdict.assumptions.map(({ name, value }): [string, string] => [`Assumed: ${name}`, value]),
    ...channels.flatMap(({ limits }) =>
      limits.map(({ name, limitC }): [string, string] => [`Limit: ${name}`, `${limitC} °C`]),
    ),
    ...(Object.keys(job) as JobFieldName[]).map((name): [string, string] => [
      JOB_FIELDS[name].label,
      String(job[name]),
    ]),
    ...options.map((option): [string, string] => [
      `Way to go on: ${option.name}`,
      `${formatPercent(option.yieldKeptFraction.nominal)} ${option.remark ?? ''}`.trim(),
    ]),
    ...(decision
      ? ([
          ['Decision', decision.disposition],
          ...(decision.condition ? [['Condition', decision.condition]] : []),
          ['Reason', decision.reason],
          ...(decision.rule ? [['Rule', decision.rule]] : []),
        ] as [string, string][])
      : []),
    ...[...(verdict.readings?.given ?? []), ...readings].map((reading, i): [string, string] => [
      `Reading ${i + 1}`,
      readingText(reading),
    ]),
    ...signOff.map(({ role, name, date }): [string, string] => [
      role,
      [name, date].filter(Boolean).join(', ') || 'not signed',
    ]),
    ...(log ? ([['How the log was read', log.notes.join(' ')]] as [string, string][]) : []),
    ...Object.entries(versions).map(([name, version]): [string, string] => [`Made with ${name}`, version]),
  ]);
}

/** "68 HB at TC1, 75 HB on cold metal". */
export function readingText({ channel, kind, value, reference, standardUncertainty }: Reading): string {
  const { unit } = SCALES[kind];
  return [
    `${value} ${unit} at ${channel}`,
    reference === undefined ? '' : `${reference} ${unit} on cold metal`,
    standardUncertainty === undefined ? '' : `good to ${standardUncertainty}`,
  ]
    .filter(Boolean)
    .join(', ');
}

const chanceText = (chance: number | null): string => (chance === null ? 'not known' : formatChance(chance));

function differentParts(before: Content, now: Content): string {
  const names = Object.keys({ ...before.partHashes, ...now.partHashes });
  const different = names.filter(
    (name) => before.partHashes[name] !== now.partHashes[name] && !OF_THE_EDITION.includes(name),
  );
  return `other details of ${different.join(', ')}`;
}
