export { type AlloySeries, alloySeries } from './codes/alloySeries';
export { type CastingAllowable, castingAllowable } from './codes/castingAllowable';
export { type CastBy, type CastingStrength, castingStrength } from './codes/castingStrength';
export type { CodeAnswer } from './codes/codeAnswer';
export type { CodeProcess } from './codes/codeProcess';
export { type HazExtent, type HazWeld, hazExtent, hazExtentUs } from './codes/hazExtent';
export { hazKnockDown, type KnockDown, type KnockDownWeld } from './codes/hazKnockDown';
export { KNOCK_DOWN_TABLE, type KnockDownRow } from './codes/hazKnockDownTable';
export type { ProductForm } from './codes/productForm';
export { type UsMetal, type UsStrength, usStrength } from './codes/usStrength';
export { type Filler, filletShearUs, type WeldMetal, weldMetal } from './codes/weldMetal';
export { type FillerFacts, fillerFacts } from './filler/fillerFacts';
export {
  type FillerChoice,
  type FillerQuestion,
  type FillerReason,
  fillerFor,
} from './filler/fillerFor';
export { readUnits } from './job/readUnits';
export { readSizeJob, type SizeJob } from './job/sizeJob';
export type { SectionMetal } from './metal/metalStrengths';
export { profileOfPoints, type SoftZonePlaceKept } from './metal/profileOfPoints';
export {
  type FilletLine,
  type FilletStress,
  filletGroup,
  type JointLoad,
  roundFillet,
  throatOfLeg,
} from './resistance/filletGroup';
export type { SectionCheck } from './resistance/sectionCheck';
export { type FactorBasis, type SectionFactor, sectionFactor } from './resistance/sectionFactor';
export type { SectionLoad } from './resistance/sectionLoad';
export { type WeldedResistance, weldedResistance } from './resistance/weldedResistance';
export { sectionCautions } from './sectionCautions';
export type { LocalClass } from './shape/localBuckling';
export { type Moments, type Point, propertiesOf, type SectionProperties } from './shape/moments';
export { bodyPolygons, type SectionBody, sectionBody } from './shape/sectionBody';
export type { SectionShape } from './shape/sectionShape';
export { shearStressPerN } from './shape/shear';
export type { WeldLine } from './shape/softMetal';
export { torsionOf } from './shape/torsion';
export type { Torsion } from './shape/torsionConstants';
export { type FactorCurve, factorCurve } from './sizing/factorCurve';
export { moveWeld, type WeldPlace } from './sizing/moveWeld';
export { type Doubler, sizeDoubler } from './sizing/sizeDoubler';
export { type SectionSize, type SizedAt, type SizeOptions, sizeSection } from './sizing/sizeSection';
export { sizeWords } from './sizing/sizeWords';
export { STOCK_INCH_MM, STOCK_MM } from './sizing/stockSizes';
export {
  COUPONS,
  type CouponKind,
  type CouponStrength,
  couponStrength,
  couponsNeeded,
  insideTried,
  type Procedure,
  type TriedAnswer,
} from './trials/coupons';
export {
  type ProofChance,
  type ProofLoad,
  proofLoadChance,
  proofLoadLikelihood,
  type StrengthBelief,
  type StrengthLikelihood,
} from './trials/proofLoad';
export {
  type StripBend,
  stripBendLikelihood,
  stripBendRadiusMm,
  stripBendStrain,
} from './trials/stripBend';
export type {
  Basis,
  KeptAtDistance,
  OwnStrengths,
  ResistanceOptions,
  SectionCode,
  SectionWeld,
  WeldedSection,
} from './weldedSection';
