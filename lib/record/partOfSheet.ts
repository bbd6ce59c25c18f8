import { NOTHING_SAID, type PartKnown } from '../decision';
import type { JobFieldName, JobSheet } from './jobSheet';

/** What a line of the sheet says for yes and for no. */
const WORDS: ReadonlyMap<unknown, boolean> = new Map([
  ['yes', true],
  ['no', false],
]);
const FITTINGS = ['threads', 'coating', 'inserts', 'machined'] as const;

/** What the lines of a job sheet say of the part, for the ways to go on with it. What cannot be understood is not said. */
export function partOfSheet(sheet: JobSheet): PartKnown {
  const { filler, thinnestWallMm, longestMm, holdsPressure, priorSolutionTreatments, uniformityK } = sheet;
  const fittings = Object.fromEntries(FITTINGS.map((name) => [name, yesOrNo(sheet[name])]));
  return given({
    filler: filler ? String(filler) : undefined,
    solutionTreatments: numberOf(priorSolutionTreatments),
    thinnestWallMm: numberOf(thinnestWallMm),
    longestMm: numberOf(longestMm),
    holdsPressure: yesOrNo(holdsPressure) ?? undefined,
    uniformityK: numberOf(uniformityK),
    fittings: FITTINGS.some((name) => fittings[name] !== null) ? { ...NOTHING_SAID, ...fittings } : undefined,
  });
}

/** The same as lines of a job sheet: `partOfSheet` reads them back. */
export function sheetOfPart({
  filler,
  solutionTreatments,
  thinnestWallMm,
  longestMm,
  holdsPressure,
  uniformityK,
  fittings,
}: PartKnown): JobSheet {
  return given({
    filler,
    priorSolutionTreatments: solutionTreatments ?? undefined,
    thinnestWallMm: thinnestWallMm ?? undefined,
    longestMm: longestMm ?? undefined,
    holdsPressure: wordFor(holdsPressure),
    uniformityK,
    ...Object.fromEntries(FITTINGS.map((name): [JobFieldName, unknown] => [name, wordFor(fittings?.[name])])),
  });
}

const yesOrNo = (line: unknown): boolean | null => WORDS.get(line) ?? null;
const wordFor = (said: boolean | null | undefined): string | undefined =>
  [...WORDS].find(([, meant]) => meant === said)?.[0] as string | undefined;

function numberOf(line: string | number | undefined): number | undefined {
  if (line === undefined || line === '') return undefined;
  return Number.isFinite(Number(line)) ? Number(line) : undefined;
}

/** Without what is not said. */
function given<Said extends object>(all: { readonly [Key in keyof Said]: Said[Key] | undefined }): Said {
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as Said;
}
