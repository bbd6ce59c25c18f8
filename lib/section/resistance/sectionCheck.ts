import type { Moments, Point, SectionProperties } from '../shape/moments';
import type { SectionBody } from '../shape/sectionBody';
import { largestStress } from '../shape/stressField';
import type { Basis } from '../weldedSection';
import { type FilletLine, filletGroup } from './filletGroup';
import type { LoadCase } from './sectionLoad';
import type { PlateJoint } from './shearFlow';

/** One thing that may give way: metal of the section, the zone beside a weld, weld metal. */
export interface SectionCheck {
  readonly name: string;
  readonly on: Basis;
  /** Whether the code asks for it, or only the basis chosen (a short soft zone may yield by the code). */
  readonly askedByCode: boolean;
  readonly clause: string;
  /** Strength the stress is held against, MPa: on reduced thickness that of the parent. */
  readonly strengthMPa: number;
  readonly shearMPa: number;
  /** Divides the strength where the code's own factors are asked. */
  readonly codeFactor: number;
  /** The metal that counts, soft metal thinned. Null for lines of fillet. */
  readonly metal: SectionProperties | null;
  /** Resistance of each action alone, characteristic; null where it asks nothing of the check. */
  readonly alone: AloneResistance;
}

/** What one action alone may reach, without any factor. */
export interface AloneResistance {
  readonly axialN: number | null;
  readonly momentXNmm: number | null;
  readonly momentYNmm: number | null;
  readonly torsionNmm: number | null;
}

/** A check with what is needed to load it. */
export interface LoadableCheck extends SectionCheck {
  readonly load: (load: LoadCase) => CheckFactor;
}

/** How often a load may be taken before a check gives way, without any factor. */
export interface CheckFactor {
  readonly factor: number;
  readonly atMm: Point;
}

/** Shear stress of a load on full metal, MPa. */
export type ShearStress = (load: Pick<LoadCase, 'shearXN' | 'shearYN' | 'torsionNmm'>) => number;

/** Factor where the load asks nothing of a check. */
const WITHOUT_END = 1e9;

type CheckBase = Omit<SectionCheck, 'metal' | 'alone'>;

/**
 * A check of metal: largest linear stress on reduced thickness, shear on full metal over the share kept, both at one
 * place (on the safe side). 'von Mises': √(σ² + 3τ²) λ = f. 'additive': σ λ/F + (τ λ/F_s)² = 1.
 */
export function metalCheck(
  base: CheckBase,
  body: SectionBody,
  metal: Moments,
  properties: SectionProperties,
  softShare: number,
  shear: ShearStress,
  combine: 'von Mises' | 'additive',
): LoadableCheck {
  const { strengthMPa, shearMPa } = base;
  const load = (c: LoadCase): CheckFactor => {
    const { stressMPa, atMm } = largestStress(body, metal, c);
    const sigma = Math.abs(stressMPa);
    const tau = shear(c) / softShare;
    return { factor: factorOf(sigma / strengthMPa, tau / shearMPa, combine), atMm };
  };
  return loadable(base, properties, load);
}

/** A check of fillets: by the code's combined rule against f_w, or by the plain vector sum against a shear strength. */
export function filletCheck(
  base: CheckBase,
  lines: readonly FilletLine[],
  rule: 'combined' | 'vector sum',
): LoadableCheck {
  const load = (c: LoadCase): CheckFactor => {
    const stress = filletGroup(lines, {
      forceXN: c.shearXN,
      forceYN: c.shearYN,
      forceZN: c.axialN,
      momentXNmm: c.momentXNmm,
      momentYNmm: c.momentYNmm,
      torsionNmm: c.torsionNmm,
    });
    const share =
      rule === 'combined' ? stress.combinedMPa / base.strengthMPa : stress.vectorSumMPa / base.shearMPa;
    return { factor: share > 0 ? 1 / share : WITHOUT_END, atMm: stress.atMm };
  };
  return loadable(base, null, load);
}

/** Any bending, or an axial force that pushes. */
export const compresses = ({ axialN, momentXNmm, momentYNmm }: LoadCase): boolean =>
  axialN < 0 || momentXNmm !== 0 || momentYNmm !== 0;

/** A check that only loads that compress ask for. */
export function whenCompressed({ load, ...check }: LoadableCheck): LoadableCheck {
  return loadable(check, check.metal, (c) =>
    compresses(c) ? load(c) : { factor: WITHOUT_END, atMm: [0, 0] },
  );
}

/** A check of fillets between plates: shear flow over their throats, with the weld, against a shear strength. */
export function flowCheck(base: CheckBase, { atMm, throatsMm, flowNPerMm }: PlateJoint): LoadableCheck {
  const load = (c: LoadCase): CheckFactor => {
    const tau = flowNPerMm(c) / throatsMm;
    return { factor: tau > 0 ? Math.min(WITHOUT_END, base.shearMPa / tau) : WITHOUT_END, atMm };
  };
  return loadable(base, null, load);
}

/** What each action alone may reach is worked out only when asked: a sweep of sizes never does. */
function loadable(
  base: CheckBase,
  metal: SectionProperties | null,
  load: LoadableCheck['load'],
): LoadableCheck {
  return {
    ...base,
    metal,
    load,
    get alone() {
      return aloneOf(load);
    },
  };
}

function factorOf(normal: number, shear: number, combine: 'von Mises' | 'additive'): number {
  if (combine === 'von Mises') {
    const share = Math.hypot(normal, shear);
    return share > 0 ? 1 / share : WITHOUT_END;
  }
  if (shear === 0) return normal > 0 ? 1 / normal : WITHOUT_END;
  // s² λ² + n λ − 1 = 0
  return 2 / (normal + Math.sqrt(normal * normal + 4 * shear * shear));
}

function aloneOf(load: (c: LoadCase) => CheckFactor): AloneResistance {
  const none: LoadCase = {
    name: '',
    doubtFraction: 0,
    axialN: 0,
    shearXN: 0,
    shearYN: 0,
    momentXNmm: 0,
    momentYNmm: 0,
    torsionNmm: 0,
  };
  const unit = (key: 'axialN' | 'momentXNmm' | 'momentYNmm' | 'torsionNmm'): number | null => {
    const { factor } = load({ ...none, [key]: 1 });
    return factor < WITHOUT_END ? factor : null;
  };
  return {
    axialN: unit('axialN'),
    momentXNmm: unit('momentXNmm'),
    momentYNmm: unit('momentYNmm'),
    torsionNmm: unit('torsionNmm'),
  };
}
