import { loadAlloy } from '../../alloy';
import type { PartExposures, PlaceExposure } from '../../decision';
import type { Exposure } from '../../exposure';
import { TemperbookError } from '../../quantity';
import { type DecisionRecord, exposureOfRecord } from '../../record';
import { measuredYield } from '../../strength';
import { THE_PART } from '../../verify';
import type { Job, JobProbe } from '../job';
import { metalOf } from '../jobMetal';
import { heatOfJob } from './heatOfJob';

/** What the places of a part saw of which there is no log, and what nobody said of its heats. */
export interface ToldPart {
  readonly part: PartExposures;
  /** By heat of the job: questions. */
  readonly asks: readonly (readonly string[])[];
}

/**
 * The part of a job without a log: a place for every probe that it names, or one of the job's metal; or, where records of
 * earlier heats stand in the job, every place of the last of them in the metal that it says. Its heats come after those
 * records.
 * @throws TemperbookError for a job that does not say its metal, and as `heatOfJob`.
 */
export function toldPart(job: Job): ToldPart {
  const heats = job.said.heats ?? [];
  if (heats.length === 0)
    throw new TemperbookError('The job says no heat of its part', {
      file: job.file,
      found: 'the furnace chart of its lot alone',
      expected: 'the key log, or heats',
      remedy: 'Of the chart alone: temperbook chart, or notebook 09',
    });
  const last = job.earlier.at(-1)?.record;
  const told = (alloy: string) =>
    heats.map((heat) => heatOfJob(heat, loadAlloy(alloy), { wallMm: job.wallMm, lot: job.lot?.name }));
  const placeOf = (metal: Omit<PlaceExposure, 'exposure' | 'earlier' | 'spanS'>, before: Exposure[]) => {
    const exposures = [...before, ...told(String(metal.alloy)).flatMap((one) => one.exposures)];
    const exposure = exposures[exposures.length - 1]!;
    const { timeS } = exposure.history;
    return {
      ...metal,
      exposure,
      earlier: exposures.slice(0, -1),
      spanS: [timeS[0]!, timeS[timeS.length - 1]!] as const,
    };
  };
  const { alloy } = metalOf(job);
  if (last) checkMetals(job, last);
  const places =
    last === undefined
      ? placesSaid(job).map(({ name, alloy, temper, metal }) =>
          placeOf({ name, alloy, temper, ...known(measuredYield(metal, loadAlloy(alloy))) }, []),
        )
      : last.verdict.channels.map((channel) =>
          placeOf(
            {
              name: channel.name,
              alloy: channel.alloy,
              temper: channel.temper,
              ...known(channel.measuredYieldMPa),
            },
            job.earlier.map(({ record, probes = {} }) =>
              exposureOfRecord(record, probes[channel.name] ?? channel.name),
            ),
          ),
        );
  return {
    part: { places, notJudged: last?.verdict.notJudged ?? [], openReadings: [] },
    asks: told(alloy).map(({ asks }) => asks),
  };
}

/** Every probe that the job names is a place of its metal; one that names none has one place. */
function placesSaid(job: Job) {
  const said: readonly (readonly [string, JobProbe])[] = Object.entries(job.probes);
  return (said.length > 0 ? said : [[THE_PART, {}] as const]).map(([name, { metal: own }]) => {
    const metal = own?.alloy === undefined ? { ...job.metal, ...own } : own;
    return { name, metal, ...metalOf({ ...job, metal }) };
  });
}

/** The places of an earlier record have the metal that it says. @throws TemperbookError where the job says another. */
function checkMetals({ probes, file }: Job, { verdict }: DecisionRecord): void {
  for (const [name, { metal }] of Object.entries(probes)) {
    const there = verdict.channels.find((channel) => channel.name === name);
    if (!there || metal?.alloy === undefined) continue;
    const isSame =
      loadAlloy(metal.alloy).designation === loadAlloy(there.alloy).designation &&
      (metal.temper ?? there.temper) === there.temper;
    if (isSame) continue;
    throw new TemperbookError('The job and its earlier record say two metals of one place', {
      file,
      column: `probes.${name}.metal`,
      found: `${metal.alloy}-${metal.temper}, and ${there.alloy}-${there.temper} in the record`,
      expected: 'one metal',
    });
  }
}

const known = (measuredYieldMPa: number | undefined) =>
  measuredYieldMPa === undefined ? {} : { measuredYieldMPa };
