import { PRODUCT_FORMS } from '../codes/productForm';

const number = { type: 'number' };
const point = { type: 'array', items: number, minItems: 2, maxItems: 2 };
const points = { type: 'array', items: point, minItems: 3 };
const object = (required: readonly string[], properties: object) => ({
  type: 'object',
  required,
  properties,
  additionalProperties: false,
});
const list = (items: object, minItems = 1) => ({ type: 'array', items, minItems });

/** The file of a size, after its units are read. Which key goes with which shape is told by the shape itself. */
export const SIZE_JOB_SCHEMA = object(['section', 'metal', 'loads', 'factor', 'on'], {
  name: { type: 'string' },
  section: object(['shape'], {
    shape: object(['kind'], {
      kind: {
        enum: ['flat bar', 'round tube', 'rectangular tube', 'oval tube', 'channel', 'plates', 'outline'],
      },
      widthMm: number,
      thicknessMm: number,
      outsideMm: number,
      wallMm: number,
      depthMm: number,
      flangeMm: number,
      flangeThicknessMm: number,
      cornerMm: number,
      plates: list(
        object(['fromMm', 'toMm', 'thicknessMm'], {
          fromMm: point,
          toMm: point,
          thicknessMm: number,
          name: { type: 'string' },
        }),
      ),
      cornersMm: points,
      holesMm: { type: 'array', items: points },
    }),
    form: { enum: [...PRODUCT_FORMS] },
    castBy: { enum: ['sand', 'permanent mould'] },
    welds: list(
      object(['lies', 'joint'], {
        lies: { enum: ['along', 'across', 'part-way'] },
        joint: { enum: ['butt', 'fillet'] },
        atMm: point,
        fromMm: point,
        toMm: point,
        throatMm: number,
        heatPathsMm: list(number),
      }),
      0,
    ),
  }),
  metal: object(['alloy', 'process', 'code'], {
    alloy: { type: 'string' },
    temper: { type: 'string' },
    process: { enum: ['MIG', 'TIG', 'TIG AC', 'TIG DC'] },
    filler: { type: 'string' },
    code: {
      enum: ['EN 1999-1-1', 'Aluminum Design Manual', 'AASHTO LTS', 'soft-zone profile', 'own tests'],
    },
    interpassC: number,
    extentMm: number,
    castingFactor: number,
    profile: list(
      object(['distanceMm', 'keptFraction'], {
        distanceMm: number,
        keptFraction: object(['nominal', 'low', 'high'], { nominal: number, low: number, high: number }),
      }),
    ),
    own: object(['proofMPa', 'ultimateMPa', 'softProofMPa', 'softUltimateMPa', 'extentMm', 'because'], {
      proofMPa: number,
      ultimateMPa: number,
      softProofMPa: number,
      softUltimateMPa: number,
      extentMm: number,
      weldMetalMPa: number,
      because: { type: 'string' },
    }),
  }),
  loads: list(
    object([], {
      name: { type: 'string' },
      doubtFraction: number,
      axialN: number,
      shearXN: number,
      shearYN: number,
      momentXNmm: number,
      momentYNmm: number,
      torsionNmm: number,
      stressMPa: number,
      atMm: point,
      gradientMPaPerMm: point,
    }),
  ),
  factor: { type: 'number', description: 'the factor of safety wanted, such as 4' },
  on: { enum: ['yield', 'rupture', 'allowable'] },
  codeFactors: { type: 'boolean' },
  stockMm: list(number),
  upToMm: number,
});
