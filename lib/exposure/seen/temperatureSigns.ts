import {
  celsiusOf,
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  formatTemp,
  formatTempSpan,
  kelvinsOf,
  requireNumber,
  TemperbookError,
} from '../../quantity';

/** A temperature stick, crayon or label on the metal: whether its mark melted or changed. */
export interface StickMark {
  /** The probe beside which it sat, where a log has several places. */
  readonly place?: string;
  readonly kind: 'stick';
  /** What is printed on it, °C or "400F". */
  readonly rating: number | string;
  readonly melted: boolean;
}

/** One reading by hand, of the hottest there was since the heat began or of the moment it was taken. */
export interface SpotReading {
  readonly place?: string;
  readonly kind: 'contact' | 'infrared on bare metal' | 'infrared on a painted spot';
  readonly tempC: number | string;
  /** When, s from the start of the heat. */
  readonly atS: number;
  /** What the instrument's sheet promises, ±K or '±5F'. */
  readonly toK: number | string;
}

/** What was seen of the metal's temperature besides any log. */
export type TemperatureSign = StickMark | SpotReading;

/** A sign ready to weigh: the metal was at least, at most or about so hot, at a time or at its hottest. */
export interface WeighableSign {
  readonly says: 'at least' | 'at most' | 'about';
  readonly tempC: number;
  /** Half width of a rectangular error, K; and the standard deviation it has. */
  readonly toK: number;
  readonly atS?: number;
  /** The part of the history it is about; absent: all of it. */
  readonly fromS?: number;
  readonly toS?: number;
  readonly because: string;
}

/** Sticks are made to 1 % of their rating in °F. Source: makers' data and a welding institute's question page, as read. */
const STICK_SHARE_F = 0.01;
/** Emissivity 8–14 µm of paint and of masking tape; the instrument is set to 0.95. Source: an emissivity table for metals. */
const PAINT = { low: 0.92, high: 0.97, set: 0.95 };
/** Middle of the band of a workshop instrument, µm, and second radiation constant, µm K. */
const WAVE_UM = 11;
const C2_UM_K = 14_388;

/**
 * Signs as bounds. A stick that melted says at least its rating, one that did not says at most; a contact reading says about;
 * infrared on a painted spot says about, with the emissivity of paint left open; on bare metal the instrument reads too low,
 * so its reading is a bound from below and nothing more.
 * @throws TemperbookError for a stick that melted above one that did not, on the same metal, and a rating or reading without
 * a unit.
 */
export function weighableSigns(signs: readonly TemperatureSign[]): WeighableSign[] {
  const found = signs.map((sign) => (sign.kind === 'stick' ? ofStick(sign) : ofSpot(sign)));
  const sticks = found.filter((_, i) => signs[i]!.kind === 'stick');
  for (const hot of sticks)
    for (const cold of sticks)
      if (hot.says === 'at least' && cold.says === 'at most' && hot.tempC - hot.toK > cold.tempC + cold.toK)
        throw new TemperbookError('Two sticks on the same metal contradict each other', {
          found: `the one for ${formatTemp(hot.tempC)} melted, the one for ${formatTemp(cold.tempC)} did not`,
          expected: 'that all below the hottest molten one melted too',
          remedy:
            'Look whether they were on the same spot, and whether one mark was rubbed off or not on bare, clean metal',
        });
  return found;
}

function ofStick({ rating, melted }: StickMark): WeighableSign {
  const tempC = requireNumber(celsiusOf(rating, 'The rating of a stick'), 'The rating of a stick in °C', {
    low: 38,
    high: 1400,
  });
  const toK = fahrenheitToCelsius(celsiusToFahrenheit(tempC) * (1 + STICK_SHARE_F)) - tempC;
  return {
    says: melted ? 'at least' : 'at most',
    tempC,
    toK,
    because: `The stick for ${formatTemp(tempC)} ${melted ? 'melted: it was reached once' : 'did not melt: it was not reached there'} (good to 1 % of its rating in °F).`,
  };
}

function ofSpot({ kind, tempC: given, atS, toK: promised }: SpotReading): WeighableSign {
  const tempC = celsiusOf(given, 'A reading');
  const toK = requireNumber(
    kelvinsOf(promised, "The instrument's tolerance"),
    "The instrument's tolerance in K",
    { low: 0, high: 100 },
  );
  requireNumber(atS, 'The time of a reading in s', { low: 0 });
  if (kind === 'infrared on bare metal')
    return {
      says: 'at least',
      tempC,
      toK,
      atS,
      because: `Infrared on bare metal read ${formatTemp(tempC)}: bare aluminium shines so little that the metal was hotter by nobody knows how much.`,
    };
  const paintK =
    kind === 'contact' ? 0 : Math.max(...[PAINT.low, PAINT.high].map((e) => Math.abs(offByK(tempC, e))));
  return {
    says: 'about',
    tempC,
    toK: toK + paintK,
    atS,
    because: `${kind === 'contact' ? 'A reading by hand' : 'Infrared on a painted spot'}: ${formatTemp(tempC)}, good to ±${formatTempSpan(toK + paintK, 1)}${paintK > 0 ? ` (${paintK.toFixed(1)} of it the paint's emissivity, 0.92–0.97)` : ''}.`,
  };
}

/** By how much the metal is hotter than an instrument set to 0.95 says, for another emissivity, K; Wien's law at 11 µm. */
function offByK(readC: number, emissivity: number): number {
  const readK = readC + 273.15;
  return 1 / (1 / readK + (WAVE_UM / C2_UM_K) * Math.log(emissivity / PAINT.set)) - readK;
}
