export type { ClockFactor } from './clockFactor';
export { type DataSet, type MeasuredFact, measuredFacts } from './measuredFact';
export { modelTrust, type TrustRow } from './modelTrust';
export { TESTED_MODELS, type TestedModel } from './testedModels';
export { groupTrust, type TrustSummary, trustSummary } from './trustSummary';
export { verdictTrust } from './verdictTrust';
export { type WeldZoneRow, weldZoneTrust } from './weldZoneTrust';
