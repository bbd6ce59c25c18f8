import { loadAlloy, startTemper } from '../../alloy';
import { vickersOfYield } from '../../kinetics';
import { type SoftZone, TREATMENTS, type Treatment } from '../../planning';
import { formatPercent, type Judged, TemperbookError } from '../../quantity';
import type { Figure } from '../figure';
import { type ProfileOptions, profileFigure } from './profileFigure';

/** What `profileFigure` can mark besides. */
export type SoftZoneMarks = Pick<ProfileOptions, 'title' | 'marks' | 'measured'>;

/** Strength kept against distance from the weld, with its bands: as welded, after rest, aged again. */
export function softZoneFigure(zone: SoftZone, options: SoftZoneMarks = {}): Figure {
  const needed = 1 - zone.allowanceFraction;
  return zoneProfile(zone, ({ kept }, treatment) => kept[treatment], 100, {
    title: `Strength kept on the ${zone.alloy}-${zone.temper} side of the weld`,
    quantity: 'Yield kept, % of before welding',
    levels: [{ name: `keep ${formatPercent(needed)}`, value: 100 * needed }],
    ...options,
  });
}

/**
 * Vickers hardness to expect along a traverse, with the hardness that the yield asked for stands for.
 * @throws TemperbookError for a casting, which has no relation between yield and hardness.
 */
export function hardnessFigure(zone: SoftZone, options: SoftZoneMarks = {}): Figure {
  const { alloy, temper } = zone;
  if (!zone.points[0]!.vickers)
    throw new TemperbookError(`${alloy} has no relation between yield and hardness`, {
      remedy: 'Compare the hardness beside the weld with cold metal of the same casting',
    });
  const needed = 1 - zone.allowanceFraction;
  const start = startTemper(loadAlloy(alloy), temper).entry.yieldMPa.value;
  return zoneProfile(zone, ({ vickers }, treatment) => vickers![treatment], 1, {
    title: `Hardness to expect on the ${alloy}-${temper} side of the weld`,
    quantity: 'Vickers hardness, HV',
    levels: [
      { name: `stands for ${formatPercent(needed)} of the yield`, value: vickersOfYield(needed * start) },
    ],
    ...options,
  });
}

function zoneProfile(
  { points, treatments }: SoftZone,
  judgedAt: (point: SoftZone['points'][number], treatment: Treatment) => Judged,
  scale: number,
  options: ProfileOptions,
): Figure {
  const column = (treatment: Treatment, end: 'nominal' | 'low' | 'high'): number[] =>
    points.map((point) => Number((scale * judgedAt(point, treatment)[end]).toFixed(1)));
  return profileFigure(
    TREATMENTS.map((treatment) => ({
      name: treatment === 'reaged' ? 'aged again' : treatments[treatment],
      distanceMm: points.map(({ distanceMm }) => distanceMm),
      nominal: column(treatment, 'nominal'),
      low: column(treatment, 'low'),
      high: column(treatment, 'high'),
    })),
    { along: 'Distance from the weld’s centre line, mm', ...options },
  );
}
