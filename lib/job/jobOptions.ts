import { loadAlloy } from '../alloy';
import type { ChannelOptions, JudgeOptions } from '../decision';
import type { Exposure } from '../exposure';
import { type ChartCheck, temperMade } from '../heattreat';
import { celsiusOf, type DataProblem, nearestName, refuseProblems, TemperbookError } from '../quantity';
import { exposureOfRecord, partOfSheet } from '../record';
import { chartFinding, chartLot, readLotCard } from '../verify';
import { chartOfJob } from './chartOfJob';
import { heatOfJob } from './heats/heatOfJob';
import type { Job, JobMetal, JobProbe } from './job';
import { metalOf } from './jobMetal';
import { nameSpeaksOfOther } from './probeNames';

/**
 * The options with which `judge` gives the answer of a job on its log: what the job says of each probe, else what the shop
 * says of probes of such a name, else what the job says of all. What its lots say (`lotsOfJob`) may be given: it takes seconds.
 * @throws TemperbookError that lists every probe the log does not have; for a job that does not say its metal, and for an
 * earlier record without a probe at the place of this one.
 */
export function jobOptions(
  job: Job,
  log: { readonly channels: readonly { readonly name: string }[] },
  lots: JudgeOptions['lots'] = lotsOfJob(job),
): JudgeOptions {
  const names = log.channels.map(({ name }) => name);
  refuseProblems(job.file === undefined ? 'This job' : 'The job file', strangers(job, names), {
    file: job.file,
  });
  const { alloy, temper } = metalOf(job);
  checkNamesOfCheck(job, names);
  const { attachment, instrument, thermocouple, ambientC, isOven, areMeans } = job.measuring;
  const { metal } = job;
  const byChannel = names.map((name): [string, ChannelOptions] => {
    const own = saidOf(job, name);
    const isOther = own.role === undefined && own.metal === undefined && nameSpeaksOfOther(name, alloy);
    const earlier = earlierAt(job, name, own, own.metal?.alloy ?? alloy);
    const check = job.check?.find((probe) => probe.name === name);
    return [
      name,
      present({
        ...knownOf(own.metal),
        attachment: own.attachment,
        instrument: own.instrument,
        role: isOther ? 'not said' : own.role,
        ...(earlier.length > 0 ? { earlier } : {}),
        check,
      }),
    ];
  });
  return present({
    ...knownOf(metal),
    alloy,
    temper,
    attachment,
    instrument,
    thermocouple,
    ambientC: ambientC === undefined ? undefined : celsiusOf(ambientC, 'ambientC'),
    isOven,
    areMeans,
    ...ofThePart(job, lots),
    byChannel: Object.fromEntries(byChannel.filter(([, own]) => Object.keys(own).length > 0)),
  }) as JudgeOptions;
}

/**
 * The options with which `judge` gives the answer of a job without a log on what its places saw (`toldPart`).
 * @throws TemperbookError for a job that does not say its metal, and for readings at a place there is not.
 */
export function toldOptions(job: Job, names: readonly string[]): JudgeOptions {
  refuseProblems(job.file === undefined ? 'This job' : 'The job file', strangers(job, names), {
    file: job.file,
  });
  const metal = metalOf(job);
  return present({ ...metal, ...ofThePart(job, lotsOfJob(job)) }) as JudgeOptions;
}

/** What a job says of the part, log or no log. */
const ofThePart = (job: Job, lots: JudgeOptions['lots']): Partial<JudgeOptions> => ({
  ...job.limits,
  readings: job.said.readings,
  lots,
  part: partOfSheet(job.sheet),
});

/** What is said of a probe: by its own name first, then by a word in it. */
export function saidOf({ probes, named }: Job, name: string): JobProbe {
  const { named: _, ...shop } = named.find((one) => hasWord(name, one.named)) ?? { named: '' };
  return { ...shop, ...probes[name] };
}

const hasWord = (name: string, word: string): boolean => name.toLowerCase().includes(word.toLowerCase());

/**
 * What the furnace chart and the coupons of the lot say of its metal; undefined where there are none.
 * @throws TemperbookError as `readLotCard`, `chartOfJob` and `chartLot`.
 */
export function lotsOfJob(job: Job): JudgeOptions['lots'] {
  const { name = 'the lot of the chart', chart, cards = [] } = job.lot ?? {};
  const byCoupons = cards.map((card) => readLotCard(card));
  if (chart === undefined) return byCoupons.length > 0 ? byCoupons : undefined;
  const twice = byCoupons.find(({ countsChart }) => countsChart);
  if (twice)
    throw new TemperbookError('A furnace chart would be counted twice', {
      file: job.file,
      column: 'lot',
      found: `lot.chart, and the card of "${twice.name}", which holds a chart already`,
      expected: 'one of the two',
    });
  const metal = metalOf(job);
  const lotOf = (check: ChartCheck) => chartLot(name, metal, chartFinding(check, temperMade(check)));
  const check = chartOfJob(job, (one) => [one.sentence, ...lotOf(one).because].join(' '));
  return [lotOf(check), ...byCoupons];
}

/** What `judge` asks of a metal. */
const knownOf = ({ alloy, temper, measuredYieldMPa, measuredHardnessHV }: JobMetal = {}): ChannelOptions => ({
  alloy,
  temper,
  measuredYieldMPa,
  measuredHardnessHV,
});

/** A check that knows no probe of the log was made with other names, and would go unheard. */
function checkNamesOfCheck({ check = [], file }: Job, names: readonly string[]): void {
  if (check.length === 0 || check.some(({ name }) => names.includes(name))) return;
  throw new TemperbookError('The check of the probes knows none of the probes of the log', {
    file,
    column: 'check',
    found: check.map(({ name }) => `"${name}"`).join(', '),
    expected: names.map((name) => `"${name}"`).join(', '),
    remedy: 'Give the columns of the check the names of the log, with read.columns',
  });
}

/** Without the keys that hold nothing, which would stand in the way of what holds for all. */
function present<Given extends object>(given: Given): Given {
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as Given;
}

/** Probes that the job names and the log does not have. */
function strangers({ said, probes }: Job, names: readonly string[]): DataProblem[] {
  const look = (at: string, name: string): DataProblem[] => {
    if (names.includes(name)) return [];
    const near = nearestName(name, names) ?? names.find((one) => hasWord(one, name));
    const meant = near ? `; did you mean "${near}"?` : '';
    return [
      {
        at,
        found: `the probe "${name}"`,
        expected: `one of ${names.map((n) => `"${n}"`).join(', ')}${meant}`,
      },
    ];
  };
  return [
    ...Object.keys(probes).flatMap((name) => look(`probes.${name}`, name)),
    ...(said.readings ?? []).flatMap(({ channel }, k) => look(`readings[${k}].channel`, channel)),
    ...(said.earlier ?? []).flatMap(({ probes: places = {} }, k) =>
      Object.keys(places).flatMap((name) => look(`earlier[${k}].probes.${name}`, name)),
    ),
  ];
}

/**
 * What the metal under a probe saw before this heat: heats told in words, then those that were judged.
 * @throws TemperbookError where a record does not say what its place saw.
 */
function earlierAt(
  { earlier, said, wallMm, lot, file }: Job,
  name: string,
  { role = 'part' }: JobProbe,
  alloy: string,
): Exposure[] {
  if (role !== 'part') return [];
  const told = (said.heats ?? []).flatMap(
    (heat) => heatOfJob(heat, loadAlloy(alloy), { wallMm, lot: lot?.name }).exposures,
  );
  const judged = earlier.map(({ record, probes = {} }, k) => {
    const there = probes[name] ?? name;
    if (record.verdict.channels.some((channel) => channel.name === there))
      return exposureOfRecord(record, there);
    throw new TemperbookError('An earlier record has no probe at the place of this one', {
      file,
      column: `earlier[${k}].probes`,
      found: `no "${there}" in it`,
      expected: `"${name}": one of ${record.verdict.channels.map((channel) => `"${channel.name}"`).join(', ')}`,
      remedy: 'Name the probe that sat there, or the hottest of that record where none did',
    });
  });
  return [...told, ...judged];
}
