export { faultAtRow } from './faultAtRow';
export type { FaultKind } from './faultKind';
export { FAULT_KINDS } from './faults/faultCodes';
export { DEFAULT_SENTINELS } from './faults/sentinels';
export { GAP_INTERVALS } from './gapPolicy';
export type { LogStatements, Statement } from './logStatements';
export { logsInFolder } from './logsInFolder';
export { readLog } from './readLog';
export type { ClockFormat, DateOrder, ReadLimits, ReadOptions, TempUnit } from './readOptions';
export { CLOCK_FORMATS, DATE_ORDERS, TEMP_UNITS } from './readOptions';
export {
  type JudgedWay,
  type SettledLogs,
  settleWays,
  type UndecidedReading,
  undecidedError,
} from './settleWays';
export type * from './thermalLog';
