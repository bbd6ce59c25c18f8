import { type HowKnown, ksiToMpa } from '../../quantity';
import { alloySeries } from './alloySeries';
import type { CastBy } from './castingStrength';
import { type CodeAnswer, unsupported } from './codeAnswer';

/** Allowable stresses of a structural casting, MPa, away from welds and within an inch of one. */
export interface CastingAllowable {
  readonly tension: Pair;
  readonly shear: Pair;
  readonly bearingOnBolts: Pair;
  readonly bearingOnFlats: Pair;
  readonly withinMm: number;
  readonly known: HowKnown;
}

interface Pair {
  readonly parentMPa: number;
  readonly weldedMPa: number;
}

/** Columns: alloy, temper, cast by; ksi away from welds: tension, shear, bearing on bolts, on flats. */
// biome-ignore format: one column of the printed table a line
const AWAY_KSI: readonly (readonly [string, string, CastBy, number, number, number, number])[] = [
  ['A444.0', 'T4', 'permanent mould', 6.72, 4.48, 11.8, 7.84],
  ['356.0', 'T6', 'permanent mould', 8.96, 5.6, 15.7, 10.6],
  ['356.0', 'T7', 'permanent mould', 7.84, 5.04, 14.0, 8.96],
  ['A356.0', 'T61', 'permanent mould', 10.1, 6.72, 17.9, 11.8],
  ['356.0', 'T6', 'sand', 6.72, 4.48, 11.8, 7.84],
  ['356.0', 'T7', 'sand', 6.72, 4.48, 11.8, 7.84],
];
/** Within an inch of a weld every column reads the same. */
const WELDED_KSI = { tension: 5.6, shear: 3.36, bolts: 8.96, flats: 6.16 };

/**
 * The one code found that answers for a welded 356-type casting: AASHTO LTS (structural supports for highway signs,
 * luminaires and traffic signals) table 6-9, allowable stresses within 25 mm (1.0 in) of a weld, filler 4043 (for
 * some
 * uses 4047). Its safety factor is inside, made for highway supports; the tension row covers compression and bending
 * too. Seen in a text copy whose edition it does not name: check the printed page.
 *
 * A356.0-T6 sand has no column: 'unsupported', for 356.0-T6 is another alloy.
 * @example castingAllowable('356.0', 'T6', 'sand').tension.weldedMPa // 38.6
 */
export function castingAllowable(
  alloy: string,
  temper: string,
  castBy: CastBy,
): CodeAnswer<CastingAllowable> {
  const name = alloy.toUpperCase().replace(/^([A-F]?\d{3})(-.*)?$/, '$1.0');
  const row =
    alloySeries(alloy) === 'casting'
      ? AWAY_KSI.find(([a, t, c]) => a === name && t === temper.toUpperCase() && c === castBy)
      : undefined;
  if (!row)
    return unsupported(
      `AASHTO LTS table 6-9 has no column for ${alloy}-${temper} cast in ${castBy}.`,
      'Break welded coupons of the same casting, or measure hardness beside the weld',
    );
  const [, , , tension, shear, bolts, flats] = row;
  const pair = (parent: number, welded: number): Pair => ({
    parentMPa: ksiToMpa(parent),
    weldedMPa: ksiToMpa(welded),
  });
  return {
    supported: true,
    tension: pair(tension, WELDED_KSI.tension),
    shear: pair(shear, WELDED_KSI.shear),
    bearingOnBolts: pair(bolts, WELDED_KSI.bolts),
    bearingOnFlats: pair(flats, WELDED_KSI.flats),
    withinMm: 25.4,
    known: 'seen',
    source: 'AASHTO LTS table 6-9 (text copy, edition not named)',
    because: [
      `Allowable tension ${tension} ksi away from welds, ${WELDED_KSI.tension} ksi within an inch of one.`,
      'These stresses hold a safety factor already, made for highway supports; other uses need another.',
    ],
  };
}
