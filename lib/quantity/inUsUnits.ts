import { celsiusToFahrenheit, MM_PER_INCH, MPA_PER_KSI } from './units';

/** How quantities are shown: °C, mm and MPa first, or °F, in and ksi. Data is kept in s, °C, mm and MPa either way. */
export type Units = 'metric' | 'us';

/** Kilograms in a pound, and newtons in a pound-force, which is that under 9.80665 m/s²; all exact. */
const KG_PER_LB = 0.45359237;
const N_PER_LBF = 4.4482216152605;

/** One unit as the kit writes it, what a US shop writes, how many of one are one of the other, and the digits it takes more. */
interface UsUnit {
  readonly si: string;
  readonly us: string;
  readonly perSi: number;
  readonly moreDigits: number;
}

/** Longest first, so that a unit is never taken for the beginning of another. */
const UNITS: readonly UsUnit[] = [
  { si: 'mm/min', us: 'in/min', perSi: 1 / MM_PER_INCH, moreDigits: 1 },
  { si: 'mm/s', us: 'in/min', perSi: 60 / MM_PER_INCH, moreDigits: 0 },
  { si: 'kJ/mm', us: 'kJ/in', perSi: MM_PER_INCH, moreDigits: -1 },
  { si: 'J/mm', us: 'J/in', perSi: MM_PER_INCH, moreDigits: -1 },
  { si: 'kN m', us: 'ft·lb', perSi: 1e6 / (12 * MM_PER_INCH * N_PER_LBF), moreDigits: -3 },
  { si: 'kN', us: 'lbf', perSi: 1000 / N_PER_LBF, moreDigits: -2 },
  { si: 'MPa', us: 'ksi', perSi: 1 / MPA_PER_KSI, moreDigits: 1 },
  { si: 'kg/m', us: 'lb/ft', perSi: (12 * MM_PER_INCH) / 1000 / KG_PER_LB, moreDigits: 0 },
  { si: 'mm', us: 'in', perSi: 1 / MM_PER_INCH, moreDigits: 2 },
  { si: '°C/s', us: '°F/s', perSi: 1.8, moreDigits: 0 },
  { si: '°C/h', us: '°F/h', perSi: 1.8, moreDigits: 0 },
];

const NUMBER = '[−-]?\\d+(?:\\.\\d+)?';
/** A figure parts its lines by a mark. */
const SPACE = '(?:[ \\u00a0]|<br>)';
/** Numbers that share one unit: "12 to 25", "60 × 3", "12, 20 and 25". */
const NUMBERS = `${NUMBER}(?:(?: to |–| × |, (?=${NUMBER}(?:, ${NUMBER})*(?: and | or )${NUMBER}${SPACE})| and | or )${NUMBER})*`;
const UNIT = UNITS.map(({ si }) => si.replace(' ', SPACE).replace('/', '\\/')).join('|');

const ONE_OR_TWO = `${NUMBER}(?: (?:to|and|or) ${NUMBER})?`;
/** "227 °C (440 °F)" and "207 MPa (30.0 ksi)", as `formatTemp` and `formatStress` write them. */
const PAIR = `(?<first>${ONE_OR_TWO}${SPACE}(?:°C|MPa))(?<gap>${SPACE})\\((?<second>${ONE_OR_TWO}${SPACE}(?:°F|ksi))\\)`;
/** "155-175 °C" of a source; "±2.5 °C", which has no zero point. The steps of a logger, 0.1 °C, are the name of a unit. */
const CELSIUS = `(?<temps>(?!0\\.(?:00)?1${SPACE})(?<off>±?)${NUMBERS}(?:-${NUMBER})?)${SPACE}°C`;
/** "207 MPa (191 to 220)". */
const BAND = `(?<nominal>${NUMBER})${SPACE}(?<bandUnit>MPa|mm)${SPACE}\\((?<low>${NUMBER})(?<to> to |–)(?<high>${NUMBER})\\)`;
const PLACE = `x (?<x>${NUMBER}), y (?<y>${NUMBER})${SPACE}mm`;
const PLAIN = `(?<numbers>${NUMBERS})${SPACE}(?<unit>${UNIT})`;
/** What was turned round before: "0.47 in (12 mm)", or within brackets "0.47 in, 12 mm". */
const US = `°F|${UNITS.map(({ us }) => us.replace('/', '\\/')).join('|')}`;
const DONE = `(?<done>${NUMBER}(?:-${NUMBER})?${SPACE}(?:${US})(?:${SPACE}\\([^()]*\\)|, ±?${NUMBERS}(?:-${NUMBER})?${SPACE}(?:°C|${UNIT})))`;
/** A number is none that goes on with a letter or is the end of a name, such as A356 or HB-07. */
const QUANTITY = new RegExp(
  `(?<![\\w.·-])(?:${DONE}|${PAIR}|${BAND}|${PLACE}|${PLAIN}|${CELSIUS})(?![\\w·/²³])`,
  'gu',
);

/**
 * A text of the kit as a US shop reads it: °F before °C, and ksi, in, lbf, ft·lb before what they were worked out from,
 * which stays beside them. Data never passes through here: what is kept stays in s, °C, mm and MPa. `names` are texts
 * that people gave (probes, parts): a length in one of them is part of the name and stays, while one that is nothing but a
 * quantity is turned like any other. Done twice it is as done once.
 *
 * @example inUsUnits('keeps 207 MPa (30.0 ksi) at 12 mm, up to 227 °C (440 °F)') // "keeps 30.0 ksi (207 MPa) at 0.47 in (12 mm), up to 440 °F (227 °C)"
 */
export function inUsUnits(text: string, names: readonly string[] = []): string {
  const kept = names.filter(holdsQuantity).sort((a, b) => b.length - a.length);
  if (kept.length === 0) return converted(text);
  const any = new RegExp(
    `(${kept.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|')})`,
    'gu',
  );
  return text
    .split(any)
    .map((piece, i) => (i % 2 === 1 ? piece : converted(piece)))
    .join('');
}

/** Whether a name says a quantity beside other words. */
const holdsQuantity = (name: string): boolean =>
  converted(name) !== name && name.replace(QUANTITY, '').trim() !== '';

const converted = (text: string): string =>
  text.replace(QUANTITY, (whole: string, ...rest: unknown[]) => {
    const found = rest.at(-1) as Readonly<Record<string, string | undefined>>;
    const at = rest.at(-3) as number;
    if (found.done !== undefined) return whole;
    if (found.second !== undefined) return `${found.second}${found.gap}(${found.first})`;
    if (found.bandUnit !== undefined) {
      const unit = unitOf(found.bandUnit);
      const [nominal, low, high] = [found.nominal, found.low, found.high].map((one) => number(one!, unit));
      return `${nominal} ${unit.us} (${low}${found.to}${high}; ${found.nominal} ${unit.si})`;
    }
    if (found.x !== undefined) {
      const unit = unitOf('mm');
      return `x ${number(found.x, unit)}, y ${number(found.y!, unit)} in (${whole})`;
    }
    if (found.temps !== undefined) {
      const told = `${inFahrenheit(found.temps, found.off === '±')} °F`;
      return isInBrackets(text, at) ? `${told}, ${whole}` : `${told} (${whole})`;
    }
    const unit = unitOf(found.unit!);
    const numbers = found.numbers!.replace(new RegExp(NUMBER, 'gu'), (one) => number(one, unit));
    const told = `${numbers} ${unit.us}`;
    return isInBrackets(text, at) ? `${told}, ${whole}` : `${told} (${whole})`;
  });

const unitOf = (si: string): UsUnit => UNITS.find((unit) => unit.si === si.replace(/\u00a0|<br>/, ' '))!;

/** As many digits as say no more than the number did. */
function number(text: string, { perSi, moreDigits }: UsUnit): string {
  const value = Number(text.replace('−', '-')) * perSi;
  const digits = (text.split('.')[1]?.length ?? 0) + moreDigits;
  const shown =
    digits >= 0 ? value.toFixed(digits) : String(Math.round(value / 10 ** -digits) * 10 ** -digits);
  return shown.replace('-', text.startsWith('−') ? '−' : '-');
}

/** Temperatures, or a difference of some, with the digits they have. */
const inFahrenheit = (numbers: string, isDifference: boolean): string =>
  numbers.replace(new RegExp(isDifference ? NUMBER : `(?<!\\d)${NUMBER}`, 'gu'), (one) => {
    const value = Number(one.replace('−', '-'));
    const digits = one.split('.')[1]?.length ?? 0;
    return (isDifference ? 1.8 * value : celsiusToFahrenheit(value)).toFixed(digits).replace('-', '−');
  });

/** Brackets in brackets read badly. */
function isInBrackets(text: string, at: number): boolean {
  return text.lastIndexOf('(', at) > text.lastIndexOf(')', at);
}
