import { type HowKnown, ksiToMpa, TemperbookError } from '../../quantity';
import { alloySeries } from './alloySeries';
import { type CodeAnswer, unsupported } from './codeAnswer';

/** How a casting was made. */
export type CastBy = 'sand' | 'permanent mould';

/** Strengths a standard asks of a casting, before any weld. */
export interface CastingStrength {
  readonly proofMPa: number;
  readonly ultimateMPa: number;
  readonly elongationPercent: number | null;
  readonly known: HowKnown;
}

type Row = readonly [
  alloy: string,
  castBy: CastBy,
  temper: string,
  proof: number,
  ultimate: number,
  elongation: number | null,
  known: HowKnown,
];

/** EN 1999-1-1 table 3.3, MPa: values of a part, 70 % of the separately cast bar of EN 1706 (elongation 50 %). */
// biome-ignore format: one row of the printed table a line
const EUROPEAN: readonly Row[] = [
  ['42100', 'permanent mould', 'T6', 147, 203, 2, 'seen'],
  ['42100', 'permanent mould', 'T64', 126, 175, 4, 'seen'],
  ['42200', 'permanent mould', 'T6', 168, 224, 1.5, 'seen'],
  ['42200', 'permanent mould', 'T64', 147, 203, 3, 'seen'],
  ['43000', 'permanent mould', 'F', 63, 126, 1.25, 'seen'],
  ['43300', 'permanent mould', 'T6', 147, 203, 2, 'seen'],
  ['43300', 'permanent mould', 'T64', 126, 175, 3, 'seen'],
  ['43300', 'sand', 'T6', 133, 161, 1, 'seen'],
  ['44200', 'permanent mould', 'F', 56, 119, 3, 'seen'],
  ['44200', 'sand', 'F', 49, 105, 2.5, 'seen'],
  ['51300', 'permanent mould', 'F', 70, 126, 2, 'seen'],
  ['51300', 'sand', 'F', 63, 112, 1.5, 'seen'],
];

/** ASTM B26 (sand) and B108 (permanent mould), ksi: separately cast bars. */
// biome-ignore format: one row of the printed table a line
const AMERICAN: readonly Row[] = [
  ['356.0', 'sand', 'T6', 20, 30, 3, 'seen'],
  ['A356.0', 'sand', 'T6', 24, 34, 3.5, 'seen'],
  ['356.0', 'sand', 'T51', 16, 23, null, 'seen'],
  ['356.0', 'permanent mould', 'T6', 22, 33, 3, 'memory'],
  ['A356.0', 'permanent mould', 'T61', 26, 38, 5, 'memory'],
];

/** Share of a separately cast bar that metal cut from the casting must reach on average (Aluminum Association). */
const CUT_FROM_CASTING = 0.75;

/**
 * Parent strength of a cast part: EN 1999-1-1 table 3.3 for 'EN AC-…' names (70 % of the cast bar; page of the 2004
 * draft seen), else ASTM B26 and B108 minima times 0.75 for metal of the part itself (elongation times 0.25; the rule
 * seen in a handbook). It says nothing of a weld.
 * @throws TemperbookError for wrought alloys, which are not cast.
 * @example castingStrength('A356.0', 'T6', 'sand').proofMPa // 124
 */
export function castingStrength(alloy: string, temper: string, castBy: CastBy): CodeAnswer<CastingStrength> {
  if (alloySeries(alloy) !== 'casting')
    throw new TemperbookError('This is no casting alloy', {
      found: alloy,
      expected: "a casting such as 'A356.0' or 'EN AC-42100'",
    });
  const european = /AC[ -]?(\d{5})/i.exec(alloy)?.[1];
  const name = european ?? alloy.toUpperCase().replace(/^([A-F]?\d{3})(-.*)?$/, '$1.0');
  const row = (european ? EUROPEAN : AMERICAN).find(
    ([a, c, t]) => a === name && c === castBy && t === temper.toUpperCase(),
  );
  const table = european ? 'EN 1999-1-1:2007 table 3.3' : castBy === 'sand' ? 'ASTM B26' : 'ASTM B108';
  if (!row)
    return unsupported(
      `The rows of ${table} known here do not hold ${alloy}-${temper} cast in ${castBy}.`,
      'Look the row up in the standard, or pull coupons cut from the casting',
    );
  const [, , , proof, ultimate, elongation, known] = row;
  const scale = european ? 1 : ksiToMpa(1) * CUT_FROM_CASTING;
  return {
    supported: true,
    proofMPa: proof * scale,
    ultimateMPa: ultimate * scale,
    elongationPercent: elongation === null ? null : elongation * (european ? 1 : 0.25),
    known,
    source: table,
    because: [
      european
        ? `${table}: strength of the part, 70 % of the separately cast bar.`
        : `${table} asks ${proof} and ${ultimate} ksi of separately cast bars; metal of the part is taken at 75 %.`,
    ],
  };
}
