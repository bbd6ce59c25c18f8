export { faultAtRow } from './faultAtRow';
export { DEFAULT_SENTINELS } from './faults/sentinels';
export { readLog } from './readLog';
export type { ClockFormat, DateOrder, ReadLimits, ReadOptions, TempUnit } from './readOptions';
export type * from './thermalLog';
