import { requireNumber, TemperbookError } from '../../quantity';
import { type CodeAnswer, unsupported } from '../codes/codeAnswer';
import { sectionFactor } from '../resistance/sectionFactor';
import { weldedResistance } from '../resistance/weldedResistance';
import type { WeldedSection } from '../weldedSection';
import type { SizeOptions } from './sizeSection';

/** A plate on each face of a flat bar across its butt weld, held by fillets along its sides only. */
export interface Doubler {
  /** Least thickness of each of the two plates, mm; null where the bar's own end of the doubler is too weak. */
  readonly thicknessMm: number | null;
  /** Least length of each plate, mm: side fillets beyond the soft zone of the butt weld on both sides of it. */
  readonly lengthMm: number | null;
  /** Factor of the bar where the doubler ends, softened by its side fillets. */
  readonly factorAtEnd: number;
  readonly massKg: number | null;
}

/**
 * Sizes doublers for axial force on a flat bar with a butt weld across:
 *
 * 1. At the butt weld bar and plates carry together, at the stress each can take: N = A_bar f_soft + A_plates f with
 *    the plates' edges softened by the side fillets.
 * 2. Where the plates end, the bar is softened along both side fillets: that bounds what a doubler can do. Fillets
 *    across its ends would soften the whole bar again, so there are none.
 * 3. Each side fillet carries a quarter of the plates' force over its length beyond the soft zone.
 *
 * Two plates, one on each face; a single one bends the bar and is not answered. Both reach their strength together
 * only where the metal is ductile. Source: equilibrium with the codes' strengths.
 */
export function sizeDoubler(
  section: WeldedSection,
  axialN: number,
  options: SizeOptions & { readonly doublerWidthMm: number; readonly throatMm: number },
): CodeAnswer<Doubler> {
  const { shape } = section;
  if (shape.kind !== 'flat bar' || !section.welds.some(({ lies }) => lies === 'across'))
    throw new TemperbookError('Doublers are sized for a flat bar with a butt weld across', {
      found: shape.kind,
      remedy: 'For a tube size its wall, or a thicker end that reaches past the soft zone',
    });
  const { factor, on, codeFactors = false } = options;
  const force = Math.abs(requireNumber(axialN, 'axialN', { low: -1e12, high: 1e12 }));
  const width = requireNumber(options.doublerWidthMm, 'doublerWidthMm', { low: 5, high: shape.widthMm });
  const throatMm = requireNumber(options.throatMm, 'throatMm', { low: 0.5, high: 50 });
  const welded = weldedResistance(section, options);
  if (!welded.supported) return welded;
  const sideFillets = [-1, 1].map((side) => ({
    lies: 'along' as const,
    atMm: [(side * width) / 2, 0] as const,
    joint: 'fillet' as const,
  }));
  const end = weldedResistance({ ...section, welds: sideFillets }, options);
  if (!end.supported) return end;
  const soft = welded.reachMm;
  if (soft === null || !welded.metal.weld)
    return unsupported(
      'The soft zone or the fillet metal of the doubler is not given by the code here.',
      'Size the thickness instead, or give your own tests',
    );
  const basis = { on, codeFactors, onlyAsked: codeFactors };
  const factorAtEnd = sectionFactor(end, { axialN: force }, basis).factor.nominal;
  const strength = welded.metal.strengths.find((s) => s.on === on)!;
  const divide = codeFactors ? strength.codeFactor : 1;
  const bar = (welded.full.areaMm2 * strength.softMPa) / divide;
  // One plate is asked as a bar of its own: strength per mm of thickness, at its own thickness.
  const plateAt = (thicknessMm: number) =>
    weldedResistance(
      {
        ...section,
        shape: { ...shape, widthMm: width, thicknessMm },
        welds: sideFillets.map((weld) => ({
          ...weld,
          atMm: [Math.sign(weld.atMm[0]) * (width / 2), 0] as const,
        })),
      },
      options,
    );
  const needN = factor * force - bar;
  const source = welded.source;
  const because = [
    `Where the plates end the bar keeps a factor of ${factorAtEnd.toFixed(2)}: no doubler of this width can do better.`,
    'Plates carry by fillets along their sides only: a fillet across an end softens the whole bar again.',
  ];
  const none = {
    supported: true as const,
    thicknessMm: null,
    lengthMm: null,
    factorAtEnd,
    massKg: null,
    source,
    because,
  };
  if (factorAtEnd < factor) return none;
  const thicknessMm =
    needN <= 0
      ? 0
      : leastThickness(needN / 2, (mm) => {
          const plate = plateAt(mm);
          return plate.supported
            ? sectionFactor(plate, { axialN: 1 }, { ...basis, onlyAsked: true }).factor.nominal
            : 0;
        });
  if (thicknessMm === null) return none;
  const { shearMPa, codeFactor } = welded.metal.weld;
  const perFillet = Math.max(0, needN) / 4;
  const filletMm = perFillet / ((throatMm * shearMPa) / (codeFactors ? codeFactor : 1));
  const lengthMm = thicknessMm === 0 ? 0 : 2 * (soft + filletMm);
  return {
    ...none,
    thicknessMm,
    lengthMm,
    massKg: 2 * thicknessMm * width * lengthMm * 2.7e-6,
    because: [
      ...because,
      `Each side fillet carries over ${filletMm.toFixed(0)} mm beyond the ${soft.toFixed(0)} mm soft zone.`,
    ],
  };
}

/** Thinnest plate that takes a force, to 0.1 mm, looking upward because the code's steps may lower it again. */
function leastThickness(forceN: number, resistanceN: (mm: number) => number): number | null {
  for (let tenths = 10; tenths <= 400; tenths++) if (resistanceN(tenths / 10) >= forceN) return tenths / 10;
  return null;
}
