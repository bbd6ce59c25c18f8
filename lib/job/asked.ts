import type { ThermalLog } from '../log';
import { ATTACHMENT_KINDS } from '../thermocouple';
import type { Job } from './job';
import { saidOf } from './jobOptions';
import { nameSpeaksOfAir, nameSpeaksOfOther } from './probeNames';

/** Something the verdict depends on that nobody said. */
export interface Asked {
  readonly about: 'fixing' | 'metal' | 'metal of a probe' | 'role' | 'heat';
  /** The probe it is about; absent where it is about all. */
  readonly probe?: string;
  readonly question: string;
  /** Answers there are; absent where any word may be one. */
  readonly choices?: readonly string[];
  /** What is taken while nobody says it. */
  readonly meanwhile: string;
  /** Key of the job file that answers it. */
  readonly key: string;
  /** Option of `temperbook review` that answers it. */
  readonly option: string;
}

/** What a job leaves unsaid about its log, what moves the answer most first. */
export function askedOf(job: Job, log: Pick<ThermalLog, 'channels' | 'statements'>): Asked[] {
  const probes = log.channels.map(({ name }) => ({ name, ...saidOf(job, name) }));
  const onPart = probes.filter(({ role = 'part' }) => role === 'part');
  const { alloy, temper, open } = job.metal;
  const isTakenForAir = (name: string): boolean => log.statements.air?.channels.includes(name) ?? false;
  const loose =
    job.measuring.attachment === undefined
      ? onPart.filter(
          ({ name, role, attachment }) =>
            attachment === undefined && (role === 'part' || !isTakenForAir(name)),
        )
      : [];
  return [
    ...(loose.length > 0 ? [fixingAsked(loose.map(({ name }) => name))] : []),
    ...(open === undefined && (alloy === undefined || temper === undefined) ? [metalAsked(alloy)] : []),
    ...onPart
      .filter(
        ({ name, role, metal }) => !role && !metal && alloy !== undefined && nameSpeaksOfOther(name, alloy),
      )
      .map(({ name }) => probeMetalAsked(name)),
    ...onPart
      .filter(({ name, role }) => !role && nameSpeaksOfAir(name))
      .map(({ name }) => roleAsked(name, isTakenForAir(name))),
  ];
}

/** A question about a heat that was told, the k-th of the job; its answer is a key of that heat. */
export const heatAsked = (question: string, k: number): Asked => ({
  about: 'heat',
  question,
  meanwhile: 'taken for the worst it may be',
  key: `heats[${k}]`,
  option: 'The options of temperbook heat',
});

const fixingAsked = (names: readonly string[]): Asked => ({
  about: 'fixing',
  question: `How were the probes fixed (${names.join(', ')})?`,
  choices: ATTACHMENT_KINDS.filter((kind) => kind !== 'not stated'),
  meanwhile: 'taken for the loosest a probe may be',
  key: 'measuring.attachment',
  option: '--attached "peened hole"',
});

const metalAsked = (alloy: string | undefined): Asked => ({
  about: 'metal',
  question:
    alloy === undefined
      ? 'What metal was heated, and in which temper (such as A356-T6)?'
      : `In which temper was the ${alloy} (such as T6)?`,
  meanwhile: 'nothing can be judged',
  key: 'metal',
  option: '--alloy A356-T6',
});

const probeMetalAsked = (name: string): Asked => ({
  about: 'metal of a probe',
  probe: name,
  question: `What does "${name}" sit on (such as 6061-T6)?`,
  meanwhile: 'not judged, so the part is not cleared',
  key: `probes.${name}.metal`,
  option: `--probe "${name}=6061-T6"`,
});

const roleAsked = (name: string, isAir: boolean): Asked => ({
  about: 'role',
  probe: name,
  question: `Does "${name}" read the part, or the air round it?`,
  choices: ['part', 'air', 'unused'],
  meanwhile: isAir ? 'taken for the air, as its column is called' : 'judged as metal of the part',
  key: `probes.${name}.role`,
  option: `--role "${name}=air"`,
});
