export type {
  AgeingConstants,
  AlloyCard,
  AlloyFamily,
  AlloyLimit,
  DissolutionConstants,
  ElementRange,
  EvidenceRange,
  ExposureAllowance,
  MatrixWtPct,
  NaturalAgeingConstants,
  OverageingConstants,
  OverageingCurve,
  PropertyTable,
  QuenchConstants,
  TemperEntry,
  ThermalConstants,
} from './alloyCard';
export { cardHash } from './cardHash';
export { type CardProblem, cardProblems } from './cardProblems';
export { type FoundTemper, findTemper } from './findTemper';
export { listAlloys, loadAlloy } from './loadAlloy';
export { meltsFromC } from './meltsFromC';
export { type MetalAlternative, metalAlternatives } from './metalAlternatives';
export {
  isOpenMetal,
  type MetalWords,
  type NamedMetal,
  namedMetal,
  parseMetal,
  withMetal,
} from './parseMetal';
export { propertyAt } from './propertyAt';
export { shopLimit } from './shopLimit';
export { isQuenched, type StartTemper, startTemper } from './startTemper';
export { temperName } from './temperName';
