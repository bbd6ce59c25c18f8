import type { PartRegion, PlatePlan } from '../plan/platePlan';

/** Layers 'auto' lays at most. */
export const MOST_LAYERS = 4;
/** 'auto' lays layers until none spans more than this, as the ratio of the depths of its two faces. */
const COARSEST = 2;
/** A part that is even is thin up to here, mm. */
const THIN_MM = 6;
/** Faces nearer than this are one, mm. */
const SAME_MM = 1e-6;

/** Depth of the upper face of a region below the height 0 of the plan, mm; its lower face lies `thicknessMm` deeper. */
export const topDepthMm = ({ topMm = 0 }: PartRegion): number => -topMm;

/**
 * The depths between which the layers of a plan lie, mm, from the uppermost face down. With more than one layer every
 * face of a region is one of them as far as the number of layers allows, so that a step in thickness falls between
 * layers; what lies between two faces is cut so that layers grow away from the face that is heated. `seen` are the
 * regions that are not wholly covered by later ones.
 */
export function layerDepthsMm(plan: PlatePlan, seen: readonly PartRegion[]): number[] {
  const depths = seen.flatMap((region) => [topDepthMm(region), topDepthMm(region) + region.thicknessMm]);
  const faces = depths
    .sort((a, b) => a - b)
    .filter((depth, i, all) => i === 0 || depth - all[i - 1]! > SAME_MM);
  if (isThin(plan, faces)) return [faces[0]!, faces.at(-1)!];
  const heated = new Set(plan.passes.map(({ face = 'top' }) => face));
  if (heated.size !== 1) return layered(plan, faces, true);
  if (heated.has('top')) return layered(plan, faces);
  // Heat from below: the same upside down.
  const turned = layered(plan, faces.map((depth) => -depth).reverse());
  return turned.map((depth) => -depth).reverse();
}

function isThin({ layers = 'auto', passes }: PlatePlan, faces: readonly number[]): boolean {
  if (layers !== 'auto') return layers === 1;
  return faces.length === 2 && (passes.length === 0 || faces[1]! - faces[0]! <= THIN_MM);
}

/** Cuts between the faces, finest at the first, or even. */
function layered({ layers = 'auto' }: PlatePlan, faces: number[], isEven = false): number[] {
  const count = layers === 'auto' ? MOST_LAYERS : layers;
  while (faces.length - 1 > count) faces.splice(leastMissed(faces), 1);
  const gaps = faces.slice(1).map((to, i) => ({ from: faces[i]!, to, cuts: 1 }));
  // Depths are counted from so far above the first face, so that its own layer is not cut for ever.
  const wholeMm = faces.at(-1)! - faces[0]!;
  const aboveMm = isEven ? 100 * wholeMm : Math.min(...gaps.map(({ from, to }) => to - from), wholeMm / 2);
  const depth = (mm: number) => mm - faces[0]! + aboveMm;
  const ratio = ({ from, to, cuts }: Gap) => (depth(to) / depth(from)) ** (1 / cuts);
  for (let laid = gaps.length; laid < count; laid++) {
    const coarsest = gaps.reduce((a, b) => (ratio(b) > ratio(a) * (1 + 1e-9) ? b : a));
    if (layers === 'auto' && ratio(coarsest) <= COARSEST + SAME_MM) break;
    coarsest.cuts++;
  }
  return [
    faces[0]!,
    ...gaps.flatMap((gap) =>
      Array.from({ length: gap.cuts }, (_, i) =>
        i === gap.cuts - 1 ? gap.to : gap.from + depth(gap.from) * (ratio(gap) ** (i + 1) - 1),
      ),
    ),
  ];
}

interface Gap {
  readonly from: number;
  readonly to: number;
  cuts: number;
}

/** The inner face that can best be done without: the one nearest to another. */
function leastMissed(faces: readonly number[]): number {
  let best = 1;
  const gap = (i: number) => Math.min(faces[i]! - faces[i - 1]!, faces[i + 1]! - faces[i]!);
  for (let i = 2; i < faces.length - 1; i++) if (gap(i) < gap(best)) best = i;
  return best;
}
