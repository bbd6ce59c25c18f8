export { celsiusToEmf, seebeckMvPerK, temperatureRangeC } from './celsiusToEmf';
export { emfToCelsius } from './emfToCelsius';
export type { ThermocoupleType } from './referenceFunctions';
