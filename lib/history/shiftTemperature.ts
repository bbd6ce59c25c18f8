import { checkHistory, type ThermalHistory, thermalHistory } from './thermalHistory';

/**
 * The history hotter by `deltaC` (°C, negative for cooler) throughout, or by what a function of the reading
 * says: 25 for what a probe may have missed, or an attachment's correction. Times and gaps stay.
 * @throws TemperbookError on a history that breaks its promises, before or after the shift.
 */
export function shiftTemperature(
  history: ThermalHistory,
  deltaC: number | ((tempC: number, timeS: number) => number),
): ThermalHistory {
  checkHistory(history);
  const { timeS, tempC, gapAfter } = history;
  const shift = typeof deltaC === 'number' ? () => deltaC : deltaC;
  return thermalHistory(
    timeS,
    tempC.map((temp, i) => temp + shift(temp, timeS[i]!)),
    gapAfter,
  );
}
