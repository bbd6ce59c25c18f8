// biome-ignore-all assist/source/organizeImports: in the order of the job, to be read as a table of contents
/**
 * Temperbook: what heat did to an aluminium part, from a temperature log to a recorded decision.
 *
 * What a user starts with stands here by name; everything else is grouped by room, for example
 * `figures.traceFigure`, `tables.verdictRows`, `heatflow.heatInput`.
 *
 * @module temperbook
 */

// Read a log, know the metal.
export { type Fault, type LogChannel, type ReadOptions, readLog, type ThermalLog } from './log';
export { type ThermalHistory, thermalHistory } from './history';
export { type AlloyCard, loadAlloy } from './alloy';
export {
  type Attachment,
  type AttachmentKind,
  celsiusToEmf,
  emfToCelsius,
  type ThermocoupleType,
  type ToleranceClass,
} from './thermocouple';

// What the metal saw, and what the models make of it.
export { type Exposure, equivalentTime, timeAbove } from './exposure';
export {
  type AlloyLike,
  dissolvedFraction,
  overageingModel,
  precipitateModel,
  type StartState,
  type TemperModel,
  type TemperTrajectory,
} from './kinetics';

// Plan a weld.
export {
  type PlateOptions,
  type PlatePlan,
  type PlateResult,
  solvePlate,
  startingPlans,
} from './heatflow';
export {
  type ComparePlansOptions,
  comparePlans,
  type PlanComparison,
  type Placement,
  type PlacementOptions,
  probePlacement,
  type SearchOptions,
  type SeenPlace,
  type SoftZone,
  type SoftZoneOptions,
  type SoftZonePlace,
  smallestWait,
  softZone,
} from './planning';
export {
  type SectionLoad,
  type SizeOptions,
  sizeSection,
  type WeldedResistance,
  type WeldedSection,
  weldedResistance,
} from './section';

// Judge and decide.
export {
  type ChartCheck,
  checkChart,
  type PartState,
  planRecovery,
  type RecoveryPlan,
  type Schedule,
} from './heattreat';
export { type Metal, type StrengthAfter, strengthAfter, type VerdictWord } from './strength';
export {
  type ChannelOptions,
  type ChannelVerdict,
  compareScenarios,
  exposureOf,
  type JudgeOptions,
  judge,
  type Scenario,
  type ScenarioResult,
  type Verdict,
} from './decision';

// Show and keep.
export { type Figure, show, shownIn, showTable } from './figure';
export { exportTable, type Frame, type TableRow, toDataFrame } from './report';
export {
  buildRecord,
  type DecisionRecord,
  type RecordParts,
  type WrittenRecord,
  writeRecord,
} from './record';
export { type Job, readJob, type Review, reviewJob } from './job';
export { type Judged, type Sourced, TemperbookError } from './quantity';

// Everything, by room.
export * as units from './quantity';
export * as histories from './history';
export * as alloys from './alloy';
export * as thermocouples from './thermocouple';
export * as statistics from './statistics';
export * as logs from './log';
export * as exposures from './exposure';
export * as kinetics from './kinetics';
export * as strength from './strength';
export * as heatflow from './heatflow';
export * as sections from './section';
export * as planning from './planning';
export * as heattreat from './heattreat';
export * as verify from './verify';
export * as decisions from './decision';
export * as validation from './validation';
export * as tables from './report';
export * as figures from './figure';
export * as records from './record';
export * as jobs from './job';
export * as notebooks from './notebook';
