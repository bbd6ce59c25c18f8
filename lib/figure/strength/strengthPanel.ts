import { lastAtOrBefore, thermalHistory, thinForPlot } from '../../history';
import { formatPercent } from '../../quantity';
import type { StrengthTrack } from '../../strength';
import type { Trace } from '../figure';
import { endLabels } from '../parts/endLabels';
import { type Naming, namingOf, shortName } from '../parts/naming';
import { type Panel, textWidthPx } from '../parts/panel';
import { axisHeading, baseAxis, levelLine, lineLook, plotText, withAlpha } from '../parts/style';
import type { TimeScale } from '../parts/timeScale';

/** Strength kept along one history. */
export interface StrengthLine {
  readonly name: string;
  readonly track: StrengthTrack;
  /** Stretches without readings, s: the line is not drawn across them. */
  readonly gapsS?: readonly (readonly [number, number])[];
  /** Which line look it takes; its place in the list unless given. */
  readonly look?: number;
}

const POINTS = 400;
/** A line that stops earlier than this share of the span before the end is named where it stops; later, its name would meet those at the edge on a phone. */
const EARLY_SHARE = 0.15;
/** Up to this many bands can be told apart when they overlap; with more, only the worst line shows its own. */
const MOST_BANDS = 4;

/** The strength panel: yield kept in per cent of the start, each with its band, and the allowance line. */
export function strengthPanel(
  lines: readonly StrengthLine[],
  allowanceFraction: number | undefined,
  scale: TimeScale,
  place: {
    readonly axis: 'y' | 'y3';
    readonly domain: readonly [number, number];
    readonly heightPx: number;
    /** How the figure names its lines; found from the names when the panel stands alone. */
    readonly naming?: Naming;
    readonly span: { readonly fromS: number; readonly toS: number };
  },
): Panel {
  const thinned = lines.map((line) => thin(line, lines.length > MOST_BANDS ? POINTS / 2 : POINTS));
  const keepPct = allowanceFraction === undefined ? 100 : 100 * (1 - allowanceFraction);
  const lowest = Math.min(keepPct, ...thinned.flatMap((track) => track.lowPct));
  const highest = Math.max(100, ...thinned.flatMap((track) => track.highPct));
  const pad = (highest - lowest) * 0.12 + 1;
  const range = [lowest - pad, highest + pad] as const;
  const ends = thinned.map((track) => track.nominalPct[track.nominalPct.length - 1]!);
  const worst = thinned.reduce(
    (at, track, i) => (lastOf(track.lowPct) < lastOf(thinned[at]!.lowPct) ? i : at),
    0,
  );
  const allowance =
    allowanceFraction === undefined
      ? undefined
      : levelLine(keepPct, `allowance: keep ${formatPercent(1 - allowanceFraction)}`, place.axis, {
          end: 'left',
          side: 'below',
        });
  const naming = place.naming ?? namingOf(lines.map(({ name }) => name));
  const labels = lines.map(({ name }, index) => {
    const kept = formatPercent(ends[index]! / 100);
    return naming.mode === 'direct' ? `${naming.label(name)} ${kept}` : kept;
  });
  const few = lines.length <= MOST_BANDS;
  const looks = lines.map(({ look }, index) => look ?? index);
  return {
    data: thinned.flatMap((track, index) => [
      ...(few || index === worst ? band(track, looks[index]!, scale, place.axis) : []),
      nominal(lines[index]!.name, track, looks[index]!, naming, scale, place.axis, !place.naming),
    ]),
    annotations: [
      axisHeading('Yield kept, % of start', place.axis === 'y' ? 'y domain' : 'y3 domain'),
      ...(allowance ? [allowance.label] : []),
      ...endLabels(
        labels.map((text, index) => ({
          text,
          look: looks[index]!,
          at: ends[index]!,
          ...stop(thinned[index]!, ends[index]! > keepPct, scale, place.span),
        })),
        place.axis,
        place.heightPx / (range[1] - range[0]),
      ),
    ],
    shapes: allowance ? [allowance.shape] : [],
    axes: {
      [place.axis === 'y' ? 'yaxis' : 'yaxis3']: { ...baseAxis(), range, domain: place.domain, nticks: 5 },
    },
    rightPx: Math.max(...labels.map(textWidthPx)) + 22,
    legendNames: place.naming || naming.mode === 'direct' ? [] : lines.map(({ name }) => shortName(name)),
  };
}

interface ThinTrack {
  readonly timeS: readonly number[];
  readonly nominalPct: readonly number[];
  readonly lowPct: readonly number[];
  readonly highPct: readonly number[];
  /** Points after which the line is broken. */
  readonly breakAfter: ReadonlySet<number>;
}

/** Thins the nominal line without losing its extremes and takes the band at the same samples. */
function thin({ track, gapsS = [] }: StrengthLine, maxPoints: number): ThinTrack {
  const gapAfter = gapsS
    .map(([fromS]) => lastAtOrBefore(track.timeS, fromS))
    .filter((index) => index >= 0 && index < track.timeS.length - 1);
  const kept = thinForPlot(thermalHistory(track.timeS, track.nominal, gapAfter), maxPoints);
  const at: number[] = [];
  let i = 0;
  for (const t of kept.timeS) {
    while (track.timeS[i]! < t) i++;
    at.push(i);
  }
  const percent = (values: Float64Array) => at.map((index) => Number((100 * values[index]!).toFixed(2)));
  return {
    timeS: Array.from(kept.timeS),
    nominalPct: percent(track.nominal),
    lowPct: percent(track.low),
    highPct: percent(track.high),
    breakAfter: new Set(kept.gapAfter ?? []),
  };
}

/** A line that stops early inside the allowance is named above, clear of the name of the allowance. */
function stop(
  track: ThinTrack,
  isInside: boolean,
  scale: TimeScale,
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
) {
  const endS = lastOf(track.timeS);
  return endS < toS - EARLY_SHARE * (toS - fromS)
    ? { stops: { atX: endS / scale.secondsPerUnit, side: isInside ? 'above' : 'below' } as const }
    : {};
}

const lastOf = (values: readonly number[]): number => values[values.length - 1]!;

function times(track: ThinTrack, scale: TimeScale): number[] {
  return track.timeS.map((t) => Number((t / scale.secondsPerUnit).toPrecision(7)));
}

/** The values with a missing one at each break. */
const broken = <T>(values: readonly T[], { breakAfter }: ThinTrack): (T | null)[] =>
  values.flatMap((value, i) => (breakAfter.has(i) ? [value, null] : [value]));

function band(track: ThinTrack, look: number, scale: TimeScale, yaxis: 'y' | 'y3'): Trace[] {
  const x = times(track, scale);
  const edge = { type: 'scatter', mode: 'lines', x, yaxis, showlegend: false, hoverinfo: 'skip' } as const;
  const line = { color: withAlpha(lineLook(look).color, 0), width: 0 };
  return [
    { ...edge, y: track.lowPct, line },
    { ...edge, y: track.highPct, line, fill: 'tonexty', fillcolor: withAlpha(lineLook(look).color, 0.13) },
  ];
}

function nominal(
  name: string,
  track: ThinTrack,
  look: number,
  naming: Naming,
  scale: TimeScale,
  yaxis: 'y' | 'y3',
  alone: boolean,
): Trace {
  const { color, dash } = lineLook(look, naming.mode);
  return {
    type: 'scatter',
    mode: 'lines',
    name: plotText(shortName(name)),
    x: broken(times(track, scale), track),
    y: broken(track.nominalPct, track),
    yaxis,
    connectgaps: false,
    line: { color, dash, width: 1.8 },
    showlegend: alone && naming.mode === 'legend',
    customdata: broken(
      track.lowPct.map((low, i) => `${low.toFixed(0)} to ${track.highPct[i]!.toFixed(0)}`),
      track,
    ),
    hovertemplate: `${plotText(name)}<br>%{y:.0f} % kept (%{customdata})<br>%{x} ${scale.unit}<extra></extra>`,
  };
}
