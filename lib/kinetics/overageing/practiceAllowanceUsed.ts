import type { ExposureAllowance } from '../../alloy';
import { equivalentTime } from '../../exposure';
import type { ThermalHistory } from '../../history';
import { formatDuration, formatTemp, type Judged, judged } from '../../quantity';
import { resolveAlloy } from '../resolveAlloy';
import type { AlloyLike } from '../temperModel';

/** How much of a dose that practice calls harmless a history has used: 1 is all of it. */
export interface AllowanceUse {
  readonly allowance: ExposureAllowance;
  readonly used: Judged;
}

/**
 * The share of each practice allowance of the alloy that a history uses up, beside the fitted curve: its
 * equivalent time at the allowance's temperature over the allowed time. The band holds the activation energy
 * and the allowed time. Empty where practice has no such rule (the card lists none).
 *
 * For 6061-T6 the published reheat limits from 375 to 450 °F are all one dose, about 4 h at 177 °C, for a loss
 * of 5 % or less.
 * @example practiceAllowanceUsed(isothermal(204.4, 1800), '6061')[0].used.nominal // 0.92
 */
export function practiceAllowanceUsed(history: ThermalHistory, alloy: AlloyLike): readonly AllowanceUse[] {
  const card = resolveAlloy(alloy, 'practice allowance');
  const q = card.overageing.activationEnergyJPerMol;
  return card.allowances.map((allowance) => {
    const { atC: referenceC, timeS, name } = allowance;
    const [nominal, ...bounds] = [q.value, q.low, q.high].map((activationEnergyJPerMol) =>
      equivalentTime(history, { activationEnergyJPerMol, referenceC }),
    );
    const used = judged(
      nominal! / timeS.value,
      [nominal!, ...bounds].flatMap((t) => [t / timeS.low, t / timeS.high]),
      '1',
      [
        `The history equals ${formatDuration(nominal!)} at ${formatTemp(referenceC)}; ${name} allow ${formatDuration(timeS.value)} there.`,
        `Source of the allowance: ${timeS.source}.`,
      ],
    );
    return { allowance, used };
  });
}
