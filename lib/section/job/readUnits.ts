import { fahrenheitToCelsius, inchesToMm, ksiToMpa, MM_PER_INCH, TemperbookError } from '../../quantity';

/** Newtons per pound-force, exact. */
const N_PER_LBF = 4.4482216152605;

type Dimension = 'length' | 'force' | 'moment' | 'stress' | 'gradient' | 'temperature' | 'share';

/** To N, mm, MPa, °C and shares. */
const UNITS: Readonly<Record<Dimension, Readonly<Record<string, (value: number) => number>>>> = {
  length: {
    mm: same,
    cm: (v) => 10 * v,
    m: (v) => 1000 * v,
    in: inchesToMm,
    inch: inchesToMm,
    '"': inchesToMm,
  },
  force: {
    N: same,
    kN: (v) => 1000 * v,
    kgf: (v) => 9.80665 * v,
    lbf: (v) => N_PER_LBF * v,
    lb: (v) => N_PER_LBF * v,
    kip: (v) => 1000 * N_PER_LBF * v,
  },
  moment: {
    'N mm': same,
    'N m': (v) => 1000 * v,
    Nm: (v) => 1000 * v,
    'kN m': (v) => 1e6 * v,
    kNm: (v) => 1e6 * v,
    'lbf in': (v) => N_PER_LBF * MM_PER_INCH * v,
    'lbf ft': (v) => 12 * N_PER_LBF * MM_PER_INCH * v,
    'ft lbf': (v) => 12 * N_PER_LBF * MM_PER_INCH * v,
    'kip ft': (v) => 12_000 * N_PER_LBF * MM_PER_INCH * v,
  },
  stress: { MPa: same, 'N/mm²': same, 'N/mm2': same, ksi: ksiToMpa, psi: (v) => ksiToMpa(v / 1000) },
  gradient: { 'MPa/mm': same, 'ksi/in': (v) => ksiToMpa(v) / MM_PER_INCH },
  temperature: { '°C': same, C: same, '°F': fahrenheitToCelsius, F: fahrenheitToCelsius },
  share: { '%': (v) => v / 100 },
};

/** What a key of the file holds and what the kit calls it. */
const KEYS: Readonly<Record<string, readonly [name: string, dimension: Dimension]>> = {
  ...named('length', 'Mm', [
    'width',
    'thickness',
    'outside',
    'wall',
    'depth',
    'flange',
    'flangeThickness',
    'corner',
    'throat',
    'extent',
    'distance',
    'upTo',
    'stock',
    'at',
    'from',
    'to',
    'corners',
    'holes',
    'heatPaths',
  ]),
  ...named('force', 'N', ['axial', 'shearX', 'shearY']),
  ...named('moment', 'Nmm', ['momentX', 'momentY', 'torsion']),
  ...named('stress', 'MPa', ['stress', 'proof', 'ultimate', 'softProof', 'softUltimate', 'weldMetal']),
  ...named('gradient', 'MPaPerMm', ['gradient']),
  ...named('temperature', 'C', ['interpass']),
  ...named('share', 'Fraction', ['doubt']),
};

/**
 * Turns a file's quantities into the kit's names and units: `"wall": "1/8 in"` becomes `wallMm: 3.175`. Numbers without
 * a unit are refused, but under a key that names its unit (`wallMm`). Lists are turned item by item.
 * @throws TemperbookError for a number without a unit, or a unit that does not fit.
 */
export function readUnits(data: unknown, path = ''): unknown {
  if (Array.isArray(data)) return data.map((item, i) => readUnits(item, `${path}[${i}]`));
  if (data === null || typeof data !== 'object') return data;
  return Object.fromEntries(
    Object.entries(data).map(([key, value]) => {
      const at = path ? `${path}.${key}` : key;
      const known = KEYS[key];
      return known ? [known[0], quantity(value, known[1], at)] : [key, readUnits(value, at)];
    }),
  );
}

function quantity(value: unknown, dimension: Dimension, at: string): unknown {
  if (Array.isArray(value)) return value.map((item, i) => quantity(item, dimension, `${at}[${i}]`));
  const units = UNITS[dimension];
  const example = `${dimension === 'share' ? '10' : '12.5'} ${Object.keys(units)[0]}`;
  const said = typeof value === 'string' ? /^\s*([-+]?[\d.]+(?:\/\d+)?)\s*(\S.*?)\s*$/.exec(value) : null;
  const [over, under = '1'] = said?.[1]?.split('/') ?? [];
  const number = Number(over) / Number(under);
  const convert = said ? units[said[2]!.replace(/[·*]/g, ' ')] : undefined;
  if (!convert || !Number.isFinite(number))
    throw new TemperbookError(`${at} needs a number with its unit`, {
      found: JSON.stringify(value) ?? 'nothing',
      expected: `a text such as "${example}", in ${Object.keys(units).join(', ')}`,
    });
  return convert(number);
}

function named(dimension: Dimension, suffix: string, keys: readonly string[]) {
  return Object.fromEntries(keys.map((key) => [key, [`${key}${suffix}`, dimension] as const]));
}

function same(value: number): number {
  return value;
}
