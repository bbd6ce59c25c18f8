import type { DecisionRecord } from '../decisionRecord';

/** A record where it stands, as far as the numbers of its part go. */
export interface Numbered {
  readonly file: string;
  readonly partNumber?: string;
  readonly serial?: string;
  readonly part?: string;
  /** It counts heats before its own: then it may be the same part again. */
  readonly countsEarlier: boolean;
}

/** What is wrong with the numbers in a record, which itself is as it was written. */
export interface NumberFinding {
  readonly file: string;
  readonly problem: string;
  readonly fileIsSound: true;
}

/** The numbers in a record. */
export function numbersOf(file: string, { job, verdict }: DecisionRecord): Numbered {
  const text = (value: string | number | undefined): string | undefined =>
    value === undefined ? undefined : String(value);
  return {
    file,
    partNumber: text(job.partNumber),
    serial: text(job.serial),
    part: text(job.part),
    countsEarlier: verdict.channels.some(({ earlier }) => earlier.length > 0),
  };
}

/**
 * Parts that are told apart by their numbers and are not: two records of one part number and serial, of which neither counts
 * a heat before its own, or one part number with two names. `records` holds the last edition of each record.
 */
export function sameNumberFindings(records: readonly Numbered[]): NumberFinding[] {
  const numbered = new Map<string, Numbered[]>();
  return records.flatMap((one) => {
    const { partNumber, serial, part } = one;
    if (partNumber === undefined) return [];
    const others = numbered.get(plain(partNumber)) ?? [];
    numbered.set(plain(partNumber), [...others, one]);
    const twin = others.find(
      (other) =>
        serial !== undefined &&
        plain(other.serial) === plain(serial) &&
        !one.countsEarlier &&
        !other.countsEarlier,
    );
    if (twin)
      return [
        {
          file: one.file,
          fileIsSound: true,
          problem: `Part ${partNumber}, serial ${serial}, has another record: ${twin.file}. Where it is one part heated twice, the later record must count the earlier heat (key earlier of the job file); where it is two parts, one has the wrong serial.`,
        },
      ];
    const renamed = others.find((other) => part && other.part && plain(other.part) !== plain(part));
    if (!renamed) return [];
    return [
      {
        file: one.file,
        fileIsSound: true,
        problem: `Part number ${partNumber} is "${part}" here and "${renamed.part}" in ${renamed.file}: two parts have one number, or one of the names is wrong.`,
      },
    ];
  });
}

const plain = (text = ''): string => text.trim().toLowerCase();
