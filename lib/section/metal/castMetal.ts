import { requireNumber, TemperbookError } from '../../quantity';
import { castingAllowable } from '../codes/castingAllowable';
import { castingStrength } from '../codes/castingStrength';
import { type CodeAnswer, unsupported } from '../codes/codeAnswer';
import type { WeldedSection } from '../weldedSection';
import { GAMMA, OMEGA, vonMises } from './codeFactors';
import type { ApartOptions } from './metalApart';
import type { SectionMetal } from './metalStrengths';

/** An unwelded casting by its standard; a welded one these codes do not answer. */
export function castPart(section: WeldedSection, options: ApartOptions): CodeAnswer<SectionMetal> {
  if (section.welds.length > 0)
    return unsupported(
      `${options.code} gives no strength beside a weld in a casting such as ${options.alloy}.`,
      'Break welded coupons of the same casting and filler (code: own tests), measure hardness beside the weld, or for highway supports ask AASHTO LTS',
    );
  const parent = castParent(section, options);
  if (!parent.supported) return parent;
  const factors = options.code === 'EN 1999-1-1' ? GAMMA : OMEGA;
  return {
    supported: true,
    strengths: [
      { on: 'yield', ...vonMises(parent.proofMPa, parent.proofMPa), codeFactor: factors.yield },
      { on: 'rupture', ...vonMises(parent.ultimateMPa, parent.ultimateMPa), codeFactor: factors.rupture },
    ],
    bands: [],
    weld: null,
    combine: options.code === 'EN 1999-1-1' ? 'von Mises' : 'additive',
    extentMm: null,
    bucklingClass: 'A',
    holdsAfterDays: null,
    known: parent.known,
    source: parent.source,
    because: parent.because,
    fromMemory: parent.known === 'memory' ? [`the row of ${options.alloy}-${options.temper}`] : [],
  };
}

/** The parent strength of a casting, over its casting factor. */
export function castParent({ castBy }: WeldedSection, { alloy, temper, castingFactor = 1 }: ApartOptions) {
  requireNumber(castingFactor, 'castingFactor', { low: 1, high: 10 });
  if (castBy !== 'sand' && castBy !== 'permanent mould')
    throw new TemperbookError('How the casting was made decides its strength', {
      found: `castBy: ${castBy}`,
      expected: 'sand or permanent mould',
    });
  const parent = castingStrength(alloy, temper, castBy);
  if (!parent.supported || castingFactor === 1) return parent;
  return {
    ...parent,
    proofMPa: parent.proofMPa / castingFactor,
    ultimateMPa: parent.ultimateMPa / castingFactor,
    because: [...parent.because, `Casting factor: strengths divided by ${castingFactor}.`],
  };
}

/** A casting by AASHTO LTS: allowable stresses. */
export function highwayCasting(section: WeldedSection, options: ApartOptions): CodeAnswer<SectionMetal> {
  const { castBy } = section;
  if (castBy === undefined)
    throw new TemperbookError('How the casting was made decides its strength', {
      found: 'no castBy',
      expected: 'sand or permanent mould',
    });
  const allowed = castingAllowable(options.alloy, options.temper, castBy);
  if (!allowed.supported) return allowed;
  const scale = 1 / requireNumber(options.castingFactor ?? 1, 'castingFactor', { low: 1, high: 10 });
  const { tension, shear } = allowed;
  return {
    supported: true,
    strengths: [
      {
        on: 'allowable',
        parentMPa: tension.parentMPa * scale,
        softMPa: tension.weldedMPa * scale,
        shearParentMPa: shear.parentMPa * scale,
        shearSoftMPa: shear.weldedMPa * scale,
        codeFactor: 1,
      },
    ],
    bands: [
      {
        withinMm: allowed.withinMm,
        proofKept: tension.weldedMPa / tension.parentMPa,
        ultimateKept: tension.weldedMPa / tension.parentMPa,
      },
    ],
    weld: null,
    combine: 'additive',
    extentMm: allowed.withinMm,
    bucklingClass: 'A',
    holdsAfterDays: null,
    known: allowed.known,
    source: allowed.source,
    because: [
      ...allowed.because,
      ...(scale < 1 ? [`Casting factor: stresses divided by ${options.castingFactor}.`] : []),
    ],
    fromMemory: ['how tension and shear are combined'],
  };
}
