export { evidenceHistory } from './evidenceHistory';
export type { EvidenceMeasurement, EvidenceRow, EvidenceStep } from './evidenceRow';
export { checkEvidence, evidenceHash, evidenceTable } from './evidenceTable';
export { type FrozenBand, type FrozenPrediction, frozenPredictions } from './frozenPredictions';
