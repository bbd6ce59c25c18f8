export {
  type ChartCheck,
  type ChartOptions,
  checkChart,
  type NamedStage,
} from './chart/checkChart';
export type { ChartQuench } from './chart/quenchRequirements';
export type { QuenchStrength } from './chart/quenchStrength';
export type { Requirement, RequirementWord, StageKind } from './chart/requirement';
export type { ChartSensor, SensorRole } from './chart/sensorRoles';
export { listSchedules, loadSchedule } from './schedule/loadSchedule';
export type { DelayLimit, HoldStage, QuenchStage, Schedule, WaitStage } from './schedule/schedule';
export { type BandCorner, type ScheduledOptions, scheduledHistory } from './schedule/scheduledHistory';
export { scheduleProblems } from './schedule/scheduleProblems';
export { soakHours } from './schedule/soakHours';
