/** A unit as the kit writes it, and what it measures. */
export interface Unit {
  readonly symbol: string;
  readonly quantity: 'temperature' | 'time' | 'emf' | 'other';
}

const TIME_UNITS: Readonly<Record<string, string>> = {
  ...{ s: 's', sec: 's', secs: 's', second: 's', seconds: 's', sek: 's', sekunden: 's', seg: 's' },
  ...{ ms: 'ms', msec: 'ms', millisec: 'ms', millisecond: 'ms', milliseconds: 'ms' },
  ...{ min: 'min', mins: 'min', minute: 'min', minutes: 'min', minuten: 'min' },
  ...{ h: 'h', hr: 'h', hrs: 'h', hour: 'h', hours: 'h', std: 'h', stunden: 'h' },
  ...{ 'h:m:s': 'h:m:s', 'hh:mm:ss': 'h:m:s', 'h:mm:ss': 'h:m:s', hms: 'h:m:s', 'hh:mm': 'h:m:s' },
  ...{ 'm:s': 'm:s', 'mm:ss': 'm:s', 'mm:ss.0': 'm:s', 'mm:ss.f': 'm:s', d: 'd', day: 'd', days: 'd' },
};

/** Other quantities loggers write beside temperatures; compared without case, powers and blanks. */
const OTHER_UNITS: ReadonlySet<string> = new Set(
  (
    'a ma ka v kv w kw mw va kva kw/m2 w/m2 w/cm2 kj kj/mm kj/m j j/mm kj/in kwh wh mm cm m km um µm in inch ft ' +
    'mm/s mm/min cm/min cm/s m/s m/min in/min ipm ft/min bar mbar pa hpa kpa mpa psi psig % %rh rh pct percent hz khz mhz rpm ' +
    'l/min lpm l/h l/s cfh cfm slpm sccm m3/h m3/s n kn lbf nm kg g lb kg/s g/s kg/h ohm kohm mohm ω kω ppm ppb db dba lux deg ° ' +
    'counts count cts bit bits digits bool boolean - -- 1 n/a none °c/s °c/min c/s c/min k/s k/min f/s °f/s °f/min rev usd eur gal gpm g/m3 mg/m3 kg/m3 hv hrc'
  ).split(' '),
);

/** "kW_m_2" is how "kW/m2" is written where a slash may not stand. */
const SLASHLESS: ReadonlySet<string> = new Set([...OTHER_UNITS].filter((u) => u.length > 3).map(slashless));

function slashless(text: string): string {
  return text.replace(/[/_^*\s-]/g, '');
}

/** "°C", "degC", "deg. C", "Celsius", "grad C", a mis-decoded degree sign before C: which scale, if any. */
function temperatureScale(text: string): string | undefined {
  const bare = text.trim();
  if (bare === '℃') return '°C';
  if (bare === '℉') return '°F';
  const word = /^(?:deg(?:rees?|s)?\.?|grad)?[\s_.]*(celsius|centigrade|fahrenheit|kelvin|cels|fahr)$/i.exec(
    bare,
  );
  if (word) return { c: '°C', f: '°F', k: 'K' }[word[1]![0]!.toLowerCase()];
  const letter = /^(?:(?:deg(?:rees?|s)?\.?|grad|[°º˚ºo?\ufffd]|\u00c2°|ï¿½)[\s_.]*)?([cfk])$/i.exec(bare);
  if (!letter) return undefined;
  const isBare = bare.length === 1;
  if (isBare && bare !== bare.toUpperCase()) return undefined;
  return { c: '°C', f: '°F', k: 'K' }[letter[1]!.toLowerCase()];
}

/** Recognises a unit, as in a units row, in brackets after a name, or glued to a number. */
export function parseUnit(text: string): Unit | undefined {
  const bare = text.trim();
  if (bare.length === 0 || bare.length > 24) return undefined;
  const scale = temperatureScale(bare);
  if (scale) return { symbol: scale, quantity: 'temperature' };
  if (/^(m|milli ?)°?c$/.test(bare) || /^0[.,]001 ?(°|deg ?)?c$/i.test(bare))
    return { symbol: '0.001 °C', quantity: 'temperature' };
  if (/^0[.,]1 ?(°|deg ?)?c$/i.test(bare)) return { symbol: '0.1 °C', quantity: 'temperature' };
  if (/^(mv|millivolts?)$/i.test(bare)) return { symbol: 'mV', quantity: 'emf' };
  const key = bare
    .replace(/²/g, '2')
    .replace(/³/g, '3')
    .replace(/[\s^]/g, '')
    .replace(/μ/g, 'µ')
    .toLowerCase();
  const time = Object.hasOwn(TIME_UNITS, key) ? TIME_UNITS[key] : undefined;
  if (time) return { symbol: time, quantity: 'time' };
  if (OTHER_UNITS.has(key) || (key.includes('_') && SLASHLESS.has(slashless(key))))
    return { symbol: bare, quantity: 'other' };
  return undefined;
}

/** A column's name taken apart: "TC1 (°F)" is stem "TC1" with unit °F. */
export interface NameParts {
  readonly stem: string;
  readonly unit?: Unit;
}

/** Names of a clock, in the languages loggers speak; a lone "t" is a time, a lone "T" a temperature. */
export const CLOCK_NAME =
  /^(?:t|[Tt]ime|TIME|(?:[a-z]+[ _.-]?)?(?:time(?:[ _.-]?\w*)?|timestamp|elapsed.*|clock|date.*|datetime|stamp|zeit|uhrzeit|datum|zeitstempel|heure|temps|hora|fecha|tempo|orario|ora|x[ _.-]?value|seconds?|secs?|minutes?|hours?))$/;

/** Is this the name of a clock column? */
export const isClockName = (stem: string): boolean =>
  CLOCK_NAME.test(stem) || CLOCK_NAME.test(stem.length > 1 ? stem.toLowerCase() : stem);

/** Unit words that are as likely plain words at the end of a name ("Weld in", "Probe deg"). */
const PLAIN_WORDS: ReadonlySet<string> = new Set([
  'in',
  'ft',
  'deg',
  'count',
  'counts',
  'none',
  'digits',
  'bit',
  'bits',
]);

/**
 * Takes the unit out of a name: in brackets anywhere, after '/', ',' or "in", or as the last words after '_' or
 * a blank ("T1_degC", "MT_rad_kW_m_2"), or as a last capital in "tempC". "Type K" is a wire, not kelvin, and a
 * single letter at the end is a unit only for a temperature ("T_s" is a surface, not a second).
 */
export function splitName(name: string): NameParts {
  const trimmed = name.trim().replace(/\s+/g, ' ');
  const bracket = /^([^([{<]*)[([{<]([^()[\]{}<>]*)[)\]}>](.*)$/.exec(trimmed);
  if (bracket) {
    const unit = parseUnit(bracket[2]!);
    if (unit) return { stem: `${bracket[1]!.trim()} ${bracket[3]!.trim()}`.trim() || trimmed, unit };
  }
  const glued = /^(.*temp(?:erature)?)([CFK])$/.exec(trimmed);
  if (glued) return { stem: glued[1]!, unit: parseUnit(glued[2]!)! };
  return (
    lastWords(trimmed, /[/,;:]/, () => true) ?? lastWords(trimmed, /[\s_.-]/, isSuffix) ?? { stem: trimmed }
  );
}

/** Splits at the first separator after which a unit stands, so that the longest unit wins. */
function lastWords(
  name: string,
  separator: RegExp,
  accept: (stem: string, unit: Unit, words: string) => boolean,
): NameParts | undefined {
  for (let at = 1; at < Math.min(name.length - 1, 80); at++) {
    if (!separator.test(name[at]!)) continue;
    const stem = name.slice(0, at).replace(/(?:[\s_.-]+|\s+in)$/, '');
    const words = name.slice(at + 1).trim();
    const unit = parseUnit(words);
    if (unit && /\p{L}/u.test(words) && stem !== '' && accept(stem, unit, words)) return { stem, unit };
  }
  return undefined;
}

function isSuffix(stem: string, unit: Unit, words: string): boolean {
  if (unit.quantity === 'temperature') return !(unit.symbol === 'K' && /type$/i.test(stem));
  if (unit.quantity === 'time') return isClockName(stem);
  return unit.quantity === 'emf' || (words.length > 1 && !PLAIN_WORDS.has(words.toLowerCase()));
}
