import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import {
  fitMetals,
  fitReport,
  MEMBERS_FILE,
  type MemberTable,
  type MovedLine,
  memberText,
} from '../kinetics';

/**
 * `npm run fit`: draws the plausible metals again from the evidence, writes them whole in place of the old ones, and
 * says what moved. Seeded: the same evidence gives the same members within Monte Carlo error on every Node.
 */
const print = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

const old: MemberTable | null = existsSync(MEMBERS_FILE)
  ? (JSON.parse(readFileSync(MEMBERS_FILE, 'utf8')) as MemberTable)
  : null;

const members = fitMetals({
  onProgress: (family, done, of) => {
    if (done % 256 === 0) print(`${family}: ${done} of ${of} draws`);
  },
});
const unfinished = `${MEMBERS_FILE}.new`;
writeFileSync(unfinished, memberText(members));
renameSync(unfinished, MEMBERS_FILE);

print(
  `\nWritten ${MEMBERS_FILE}, evidence ${members.evidenceHash} (before: ${old?.evidenceHash ?? 'none'})\n`,
);
const number = (x: number): string => x.toPrecision(4).padStart(9);
const spread = (of: MovedLine['before']): string =>
  of ? [of.low, of.median, of.high].map(number).join(' ') : ''.padStart(29);
print(`${''.padEnd(40)} ${'before: 5 %, median, 95 %'.padStart(29)}   ${'after'.padStart(29)}   moved by`);
for (const { what, before, after, shift } of fitReport(members, old))
  print(
    `${what.padEnd(40)} ${spread(before)}   ${spread(after)}   ${shift === null ? '' : shift.toFixed(2)}`,
  );
