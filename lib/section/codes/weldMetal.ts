import { type HowKnown, ksiToMpa, TemperbookError } from '../../quantity';
import { alloySeries } from './alloySeries';
import { type CodeAnswer, unsupported } from './codeAnswer';

/** Fillers whose weld metal the codes here speak of. */
export type Filler = '4043' | '4047' | '4643' | '4008' | '4010' | '5183' | '5356' | '5554' | '5556';
/** Every filler the kit knows. */
export const FILLERS: readonly Filler[] = [
  '4043',
  '4047',
  '4643',
  '4008',
  '4010',
  '5183',
  '5356',
  '5554',
  '5556',
];

/** Strength of weld metal. */
export interface WeldMetal {
  /** Characteristic strength of butt weld metal, f_w, MPa. */
  readonly tensionMPa: number;
  /** Shear strength on the throat of a fillet, MPa. */
  readonly shearMPa: number;
  readonly known: HowKnown;
}

/** EN 1999-1-1:2007 table 8.8, f_w in MPa by parent alloy (memory). */
const FW = {
  '5356': { '5083': 240, '6060': 160, '6005A': 180, '6061': 190, '6082': 210, '7020': 260 },
  '4043': { '6060': 150, '6005A': 160, '6061': 170, '6082': 190, '7020': 210 },
} as const;
/** Fillers the table groups with each of its two (memory). */
const GROUP: Readonly<Partial<Record<Filler, keyof typeof FW>>> = {
  '5356': '5356',
  '5183': '5356',
  '5556': '5356',
  '4043': '4043',
  '4047': '4043',
};
/** Least longitudinal shear strength of fillets, ksi: Aluminum Design Manual, earlier editions (memory). */
const US_SHEAR: Readonly<Partial<Record<Filler, number>>> = {
  '4043': 11.5,
  '4643': 13.5,
  '5183': 18.5,
  '5356': 17,
  '5554': 17,
  '5556': 20,
};

/** 'ER4043', '4043A', 'AlSi5 4043' → '4043'. @throws TemperbookError for a filler the kit does not know. */
export function readFiller(filler: string): Filler {
  const digits = /\d{4}/.exec(filler)?.[0];
  const known = FILLERS.find((name) => name === digits);
  if (known) return known;
  throw new TemperbookError('The kit does not know this filler', {
    found: `"${filler}"`,
    expected: `one of ${FILLERS.join(', ')}`,
  });
}

/**
 * Weld metal by EN 1999-1-1:2007 table 8.8: f_w by parent and filler; shear on a throat f_w/√3 (cl. 8.6.3.3). All
 * from
 * memory. 6063 and 6106 are read with 6060; 5183 and 5556 with 5356, 4047 with 4043. A filler nobody said is the
 * weaker.
 *
 * @example weldMetal('6061', '4043').tensionMPa // 170
 */
export function weldMetal(alloy: string, filler?: string): CodeAnswer<WeldMetal> {
  if (alloySeries(alloy) === 'casting')
    return unsupported(
      `EN 1999-1-1 gives no weld metal strength on a casting such as ${alloy}.`,
      'Break welded coupons of the same casting and filler',
    );
  const parent = parentColumn(alloy);
  const groups: readonly (keyof typeof FW)[] =
    filler === undefined ? ['4043', '5356'] : [GROUP[readFiller(filler)]].flatMap((g) => g ?? []);
  const values = groups.map((group) => (FW[group] as Readonly<Record<string, number>>)[parent]);
  if (values.length === 0 || values.some((value) => value === undefined))
    return unsupported(
      `EN 1999-1-1 table 8.8 as known here has no weld metal of ${filler ?? 'an unnamed filler'} on ${alloy}.`,
      'Look it up in the standard, or break welded coupons',
    );
  const tensionMPa = Math.min(...(values as number[]));
  return {
    supported: true,
    tensionMPa,
    shearMPa: tensionMPa / Math.sqrt(3),
    known: 'memory',
    source: 'EN 1999-1-1:2007 table 8.8',
    because: [
      filler === undefined
        ? `No filler was named: weld metal is taken at the weaker, ${tensionMPa} MPa.`
        : `Weld metal of ${filler} on ${alloy}: ${tensionMPa} MPa.`,
    ],
  };
}

/**
 * Fillet weld metal in US practice: least longitudinal shear strength on the throat, whatever the parent. From
 * memory.
 * A filler nobody said is 4043, the weakest.
 * @example filletShearUs('4043').shearMPa // 79.3
 */
export function filletShearUs(filler?: string): CodeAnswer<{ shearMPa: number; known: HowKnown }> {
  const name = filler === undefined ? '4043' : readFiller(filler);
  const ksi = US_SHEAR[name];
  if (ksi === undefined)
    return unsupported(`The fillet strengths known here do not hold ${name}.`, 'Look it up in the manual');
  return {
    supported: true,
    shearMPa: ksiToMpa(ksi),
    known: 'memory',
    source: 'Aluminum Design Manual, editions to 2005',
    because: [`${filler === undefined ? 'No filler was named: 4043, the weakest' : name}: ${ksi} ksi shear.`],
  };
}

function parentColumn(alloy: string): string {
  const name = alloy.toUpperCase();
  if (/6063|6106/.test(name)) return '6060';
  return ['5083', '6060', '6005A', '6061', '6082', '7020'].find((column) => name.includes(column)) ?? name;
}
