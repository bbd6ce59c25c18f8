export {
  type BakeCertificate,
  bakeCertificate,
  bakeCertificateSchema,
  type CertificateAnswer,
} from './certificate/bakeCertificate';
export {
  type ChartCheck,
  type ChartOptions,
  checkChart,
} from './chart/checkChart';
export type { ChartLog, JoinOptions } from './chart/joinCharts';
export type { NamedStage } from './chart/namedStages';
export type { ChartQuench } from './chart/quench/quenchRequirements';
export type { QuenchStrength } from './chart/quench/quenchStrength';
export type { Requirement, RequirementWord, StageKind } from './chart/requirement';
export type { ChartSensor, SensorRole } from './chart/sensorRoles';
export { type SettledChart, settleChart } from './chart/settleChart';
export { type SensorTemper, type TemperMade, temperMade } from './chart/temperMade';
export { type FillerResponse, fillerResponse } from './recovery/fillers';
export type { Objection, WayKind } from './recovery/objections';
export type { Fittings, Material, PartPlace, PartState } from './recovery/partState';
export {
  type Permission,
  type PlanRecoveryOptions,
  planRecovery,
  type RecoveryPlan,
  type RecoveryWay,
  type StrengthAtPlace,
} from './recovery/planRecovery';
export {
  type BestReage,
  bestReage,
  type ReageCurve,
  type ReageGrid,
  reageCurves,
} from './recovery/reage';
export { type RecoveryTicket, recoveryTicket, ticketHtml, ticketText } from './recovery/recoveryTicket';
export type { HeatedMetal, PlaceStrength } from './recovery/strengthOfPlace';
export { type CommonHold, type FurnaceWindow, furnaceWindow } from './routes/furnaceWindow';
export {
  planRoutes,
  type Route,
  type RouteJob,
  type RoutePlace,
  type RoutePlan,
  type RouteReason,
  type RouteStrength,
} from './routes/planRoutes';
export { type Straightening, straightening } from './routes/straightening';
export { listSchedules, loadSchedule } from './schedule/loadSchedule';
export type { DelayLimit, HoldStage, QuenchStage, Schedule, WaitStage } from './schedule/schedule';
export { type BandCorner, type ScheduledOptions, scheduledHistory } from './schedule/scheduledHistory';
export { scheduleProblems } from './schedule/scheduleProblems';
export { soakHours } from './schedule/soakHours';
