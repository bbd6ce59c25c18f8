import type { ThermalHistory } from '../../history';
import { formatPercent, formatTemp, TemperbookError } from '../../quantity';
import type { RangeRemark } from '../temperModel';
import type { PrecipitateParameters } from './parameters';
import type { Anchor, Solute } from './precipitateState';

/** Compositions the published set was made for and checked on, wt % of the matrix. */
const CHECKED_WT_PCT = { Mg: [0.3, 1.0], Si: [0.4, 1.2], Cu: [0, 0.4] } as const;
/** Hotter than this the solidus of the eutectic is near and diffusion through liquid is not modelled, °C. */
const HOTTEST_C = 580;
/** From above this too much forms again on slow cooling, °C: who combines models leaves this one out. */
export const PRECIPITATE_LIMIT_C = 500;
/** Aluminium is liquid, °C. */
const LIQUID_C = 660;
/** A measured yield this far from what scaled particles explain, MPa, or a scale this low, is worth a word. */
const ODD_OFFSET_MPA = 5;
const ODD_SCALE = 0.75;

/** How the model signs its remarks. */
export const NAME = 'precipitate size classes';

const remark = (quantity: string, text: string): RangeRemark => ({ model: NAME, quantity, text });

/** What a composition asks beyond what the model was checked on. */
export function compositionRemarks(p: PrecipitateParameters, solute: Solute): RangeRemark[] {
  const remarks: RangeRemark[] = [];
  for (const element of ['Mg', 'Si', 'Cu'] as const) {
    const [low, high] = CHECKED_WT_PCT[element];
    const wt = solute[element];
    if (wt < low || wt > high)
      remarks.push(
        remark(
          'composition',
          `${wt} wt % ${element} in the matrix lies outside ${low}–${high}, where the model was checked: its strength is an extrapolation.`,
        ),
      );
  }
  if (p.siliconPerMagnesium * solute.Mg > solute.Si)
    remarks.push(
      remark(
        'composition',
        'The matrix holds less silicon than its magnesium can bind: the model lets all magnesium precipitate and so overrates strength.',
      ),
    );
  return remarks;
}

/** Alloys whose measurements the calibrated set was fitted to. */
const CALIBRATED_FOR = ['6061', '6063', '356.0', 'A356.0'];

/** What the calibrated set does not know. */
export function calibrationRemarks(designation: string | undefined): RangeRemark[] {
  if (designation !== undefined && CALIBRATED_FOR.includes(designation)) return [];
  return [
    remark(
      'alloy',
      `The calibrated set was fitted to ${CALIBRATED_FOR.join(', ')}; ${designation ?? 'a bare composition'} is an extrapolation (6082, held out, peaks five times later than it says).`,
    ),
  ];
}

/**
 * What a history asks beyond solid metal.
 * @throws TemperbookError where aluminium is liquid.
 */
export function temperatureRemarks({ tempC }: ThermalHistory): RangeRemark[] {
  let hottest = tempC[0]!;
  for (const t of tempC) if (t > hottest) hottest = t;
  if (hottest > LIQUID_C)
    throw new TemperbookError('The precipitate model needs solid metal', {
      found: formatTemp(hottest),
      expected: `at most ${formatTemp(LIQUID_C)}, where aluminium melts`,
      remedy: 'Look for a fault of the probe, or leave out metal that melted',
    });
  if (hottest <= PRECIPITATE_LIMIT_C) return [];
  if (hottest <= HOTTEST_C)
    return [
      remark(
        'temperature',
        `The history reaches ${formatTemp(hottest)}: on slow cooling from above ${formatTemp(PRECIPITATE_LIMIT_C)} the model lets too much form again.`,
      ),
    ];
  return [
    remark(
      'temperature',
      `The history reaches ${formatTemp(hottest)}: above ${formatTemp(HOTTEST_C)} metal may melt, which the model does not know.`,
    ),
  ];
}

/** What a measured start asks beyond scaled particles. */
export function anchorRemarks({ particleScale, offsetMPa }: Anchor): RangeRemark[] {
  if (particleScale < ODD_SCALE)
    return [
      remark(
        'start',
        `The measured yield leaves only ${formatPercent(particleScale)} of the hardening of the temper named. Check the temper and the measurement.`,
      ),
    ];
  if (Math.abs(offsetMPa) < ODD_OFFSET_MPA) return [];
  return [
    remark(
      'start',
      `${offsetMPa.toFixed(0)} MPa of the measured yield are not explained by the temper named: they are carried along unchanged. Check the temper and the measurement.`,
    ),
  ];
}
