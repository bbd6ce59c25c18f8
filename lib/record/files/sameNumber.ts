import type { DecisionRecord } from '../decisionRecord';

/** A record where it stands. */
export interface Filed {
  readonly file: string;
  readonly record: DecisionRecord;
}

/**
 * Parts that are told apart by their numbers and are not: two records of one part number and serial, of which neither counts
 * a heat before its own, or one part number with two names. `records` holds the last edition of each record.
 */
export function sameNumberFindings(records: readonly Filed[]): { file: string; problem: string }[] {
  return records.flatMap((one, i) => {
    const others = records.slice(0, i);
    const { partNumber, serial, part } = one.record.job;
    if (partNumber === undefined) return [];
    const numbered = others.filter(({ record: { job } }) => same(job.partNumber, partNumber));
    const twin = numbered.find(
      ({ record }) => serial !== undefined && same(record.job.serial, serial) && !isAgain(one.record, record),
    );
    if (twin)
      return [
        {
          file: one.file,
          problem: `Part ${partNumber}, serial ${serial}, has another record: ${twin.file}. Where it is one part heated twice, the later record must count the earlier heat (key earlier of the job file); where it is two parts, one has the wrong serial.`,
        },
      ];
    const renamed = numbered.find(({ record: { job } }) => part && job.part && !same(job.part, part));
    if (!renamed) return [];
    return [
      {
        file: one.file,
        problem: `Part number ${partNumber} is "${part}" here and "${renamed.record.job.part}" in ${renamed.file}: two parts have one number, or one of the names is wrong.`,
      },
    ];
  });
}

const same = (a: string | number | undefined, b: string | number | undefined): boolean =>
  String(a ?? '')
    .trim()
    .toLowerCase() ===
  String(b ?? '')
    .trim()
    .toLowerCase();

/** Whether one of two records counts heats before its own: then it may be the same part again. */
const isAgain = (...records: readonly DecisionRecord[]): boolean =>
  records.some(({ verdict }) => verdict.channels.some(({ earlier }) => earlier.length > 0));
