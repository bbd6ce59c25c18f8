export {
  ATTACHMENT_KINDS,
  type Attachment,
  type AttachmentKind,
  attachmentCorrectionC,
  attachmentError,
} from './attachment';
export { boilingPointC, pressureAtKPa } from './boilingPointC';
export { celsiusToEmf, seebeckMvPerK, temperatureRangeC } from './celsiusToEmf';
export { conductionErrorFraction, type Lead } from './conductionError';
export { correctLag, type LagCorrection, type LagOptions, lagNoiseGain } from './correctLag';
export { emfToCelsius } from './emfToCelsius';
export type { ThermocoupleType } from './referenceFunctions';
export { type ToleranceClass, type ToleranceStandard, toleranceC, type WireClass } from './toleranceC';
export { typeKDriftC } from './typeKDriftC';
