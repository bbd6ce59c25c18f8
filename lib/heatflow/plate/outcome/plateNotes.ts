import { formatPercent, formatTemp } from '../../../quantity';
import type { PlateModel } from '../model/plateCells';
import type { PlatePlan } from '../plan/platePlan';
import type { PlatePassResult } from './plateResult';

/** A weld melts a seam; a plan that melts more of the part than this holds a slip. */
const MOST_MOLTEN = 1 / 3;
/** A part never cools quite evenly: its mean may be so far above the interpass limit unnoticed, K. */
const UNEVEN_K = 5;

/** Says so when the part became hotter than any weld makes it. `peakC` is the map of highest temperatures. */
export function heatNotes(model: PlateModel, peakC: Float64Array): string[] {
  const { grid, topCell, columnMm, metals, metalOf, metalProperties } = model;
  let beyond: { peakC: number; endsAtC: number } | undefined;
  let whole = 0;
  let molten = 0;
  for (const [place, here] of grid.inPart.entries()) {
    if (!here) continue;
    const metal = metalOf[topCell[place]!]!;
    const hot = peakC[place]!;
    const { endsAtC } = metals[metal]!;
    if (hot > endsAtC && hot > (beyond?.peakC ?? 0)) beyond = { peakC: hot, endsAtC };
    whole += columnMm[place]!;
    if (hot >= (metalProperties[metal]!.solidusC ?? Number.POSITIVE_INFINITY)) molten += columnMm[place]!;
  }
  const check = 'check amps, travel and thickness, and their units.';
  return [
    ...(beyond
      ? [
          `The hottest metal reaches ${formatTemp(beyond.peakC)}, beyond the ${formatTemp(beyond.endsAtC)} where the table of its properties ends: ${check}`,
        ]
      : []),
    ...(molten > MOST_MOLTEN * whole ? [`${formatPercent(molten / whole)} of the part melts: ${check}`] : []),
  ];
}

/** Says so when a pass was struck by a probe that did not tell how warm the part was. */
export function interpassNotes(plan: PlatePlan, passes: readonly PlatePassResult[]): string[] {
  return passes.flatMap(({ name, bulkStartC }, i) => {
    const { interpassC: limitC, atProbe } = plan.passes[i]!.startAfter ?? {};
    if (limitC === undefined || bulkStartC <= limitC + UNEVEN_K) return [];
    return [
      `When the arc of ${name} was struck, probe "${atProbe}" was within its limit of ${formatTemp(limitC)}, but the part as a whole was at ${formatTemp(bulkStartC)}: put the probe nearer the weld, or add a wait.`,
    ];
  });
}

/** Says which metal is written into the plan without a melting range: neither a pool nor a probe in it is noticed. */
export function meltingNotes({ part }: PlatePlan): string[] {
  const blind = part.flatMap(({ name, metal, thicknessMm }, i) =>
    thicknessMm > 0 && typeof metal !== 'string' && metal.solidusC === undefined
      ? [name ?? `region ${i + 1}`]
      : [],
  );
  return blind.length > 0
    ? [`The metal of ${blind.join(', ')} has no solidusC in the plan: melting is not noticed there.`]
    : [];
}
