export { formatChance } from './chance';
export { type ErrorPlace, TemperbookError } from './error';
export { escapeXml } from './escapeXml';
export { formatDuration, formatPercent, formatStress, formatTemp, formatTempSpan } from './format';
export { formatKept } from './formatKept';
export { inUsUnits, type Units } from './inUsUnits';
export { inWorkers, type WorkerTask } from './inWorkers';
export { type Judged, judged } from './judged';
export { knownOptions } from './knownOptions';
export { nearestName } from './nearestName';
export { nowAndThen } from './nowAndThen';
export { once } from './once';
export { finishPage } from './page/finishPage';
export { keepTogether } from './page/keepTogether';
export { requireList } from './requireList';
export { type DataProblem, dataCheck, refuseProblems } from './schema/dataProblems';
export * as schema from './schema/schemaParts';
export type { HowKnown, Sourced } from './sourced';
export { celsiusOf, kelvinsOf } from './temperature';
export {
  celsiusToFahrenheit,
  celsiusToKelvin,
  fahrenheitToCelsius,
  GAS_CONSTANT,
  inchesToMm,
  kelvinToCelsius,
  ksiToMpa,
  MM_PER_INCH,
  MPA_PER_KSI,
  mmToInches,
  mpaToKsi,
  requireNumber,
  ZERO_C_IN_K,
} from './units';
export { readUserJson } from './userJson';
