import type { DecisionRecord } from './decisionRecord';

/** Every text of a record that people gave: probes, what the job sheet says, what was decided and why. */
export function namesIn({ verdict, job, log, decision, signOff }: DecisionRecord): string[] {
  const texts = (of: object | undefined): string[] =>
    Object.values(of ?? {}).filter((value): value is string => typeof value === 'string');
  return [
    ...verdict.channels.map(({ name }) => name),
    ...(log ? [log.name, ...log.channels.map(({ name }) => name)] : []),
    ...texts(job),
    ...texts(decision),
    ...signOff.flatMap(texts),
  ];
}
