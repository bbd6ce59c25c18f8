import type { PlanPoint, PlanShape, PlatePlan } from '../../heatflow';
import type { Annotation, Figure, Trace } from '../figure';
import {
  axisHeading,
  baseLayout,
  INK,
  LEGEND_BELOW,
  plotText,
  QUIET_INK,
  TEXT_PX,
  VEIL,
} from '../parts/style';
import { planAxes } from './planAxes';

/** The plot takes the part's own proportions within these bounds, px. */
const WIDTH_PX = 690;
const HEIGHT_PX = { least: 180, most: 560 } as const;
const MARGIN = { l: 46, r: 24, t: 66, b: 90 } as const;
/** Metal from thin to thick. */
const METAL = ['#e9ebee', '#d5d9de', '#bfc5cc', '#a7aeb8', '#8d95a1'] as const;
const HOLE = '#ffffff';
const PASS = '#a8502a';
const BODY = '#2f6f8f';
const CIRCLE_POINTS = 48;

/**
 * The drawing of a weld plan before it runs: the part with its thicknesses, the passes in their order and direction,
 * clamps and chills, joins and probes, true to scale in mm.
 */
export function planFigure(plan: PlatePlan, title = 'The plan'): Figure {
  const outlines = plan.part.map(({ shape }) => outlineOf(shape));
  const solid = outlines.filter((_, i) => plan.part[i]!.thicknessMm > 0).flat();
  const [xs, ys] = [solid.map(([x]) => x), solid.map(([, y]) => y)];
  const pad = 0.04 * Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  const [low, high] = [Math.min(...ys) - pad, Math.max(...ys) + pad];
  const wideMm = Math.max(...xs) - Math.min(...xs) + 2 * pad;
  const height = Math.min(HEIGHT_PX.most, Math.max(HEIGHT_PX.least, ((high - low) / wideMm) * WIDTH_PX));
  // As wide as the paper is for this height, so that a millimetre is as long either way there too.
  const halfMm = Math.max(wideMm, ((high - low) * WIDTH_PX) / height) / 2;
  const middleMm = (Math.max(...xs) + Math.min(...xs)) / 2;
  const [left, right] = [middleMm - halfMm, middleMm + halfMm];
  const thicknesses = [
    ...new Set(plan.part.map(({ thicknessMm }) => thicknessMm).filter((mm) => mm > 0)),
  ].sort((a, b) => a - b);
  return {
    data: [
      ...plan.part.map((region, i) => regionTrace(region, outlines[i]!, thicknesses)),
      ...(plan.contacts ?? []).map(({ name, shape }, i) =>
        lineTrace(closed(outlineOf(shape)), name ?? `contact ${i + 1}`, BODY, 'dash', true),
      ),
      ...(plan.joins ?? []).flatMap(({ name, edgeMm, toEdgeMm, ontoMm }, i) =>
        [edgeMm, toEdgeMm ?? ontoMm!].map((line, side) =>
          lineTrace(line, name ?? `join ${i + 1}`, INK, 'dot', side === 0),
        ),
      ),
      ...plan.passes.flatMap(({ name, path, beside }, i) => {
        const label = `${i + 1} ${name ?? 'pass'}`;
        return [
          path.length > 1 ? lineTrace(path, label, PASS, 'solid', true) : dotTrace(path[0]!, label),
          ...(beside ? [lineTrace(beside.path, label, PASS, 'solid', false)] : []),
        ];
      }),
      probeTrace(plan),
    ],
    layout: {
      ...baseLayout(title, MARGIN.t + height + MARGIN.b),
      margin: MARGIN,
      ...planAxes({ range: [left, right], title: 'x, mm' }, [low, high]),
      annotations: [
        axisHeading('y, mm', 'y domain'),
        ...plan.part.map((region, i) => regionLabel(region, outlines[i]!)),
        ...arrows(
          plan.passes.map(({ path }) => path),
          wideMm,
        ),
        ...plan.probes.map(({ name, xMm, yMm }) => label(name, [xMm, yMm], INK, -12)),
      ],
      showlegend: true,
      legend: LEGEND_BELOW,
    },
  };
}

function outlineOf(shape: PlanShape): readonly PlanPoint[] {
  if ('polygonMm' in shape) return shape.polygonMm;
  if ('rectMm' in shape) {
    const [x0, y0, x1, y1] = shape.rectMm;
    return [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ];
  }
  const [x, y, radius] = shape.circleMm;
  return Array.from({ length: CIRCLE_POINTS }, (_, i): PlanPoint => {
    const turn = (2 * Math.PI * i) / CIRCLE_POINTS;
    return [x + radius * Math.cos(turn), y + radius * Math.sin(turn)];
  });
}

const closed = (points: readonly PlanPoint[]): readonly PlanPoint[] => [...points, points[0]!];

function regionTrace(
  { name, thicknessMm }: PlatePlan['part'][number],
  outline: readonly PlanPoint[],
  thicknesses: readonly number[],
): Trace {
  const rank = thicknesses.indexOf(thicknessMm);
  const shade = thicknesses.length > 1 ? (rank / (thicknesses.length - 1)) * (METAL.length - 1) : 1;
  return {
    ...lineTrace(closed(outline), name ?? 'metal', QUIET_INK, 'solid', false),
    line: { color: QUIET_INK, width: 1 },
    fill: 'toself',
    fillcolor: thicknessMm > 0 ? METAL[Math.round(shade)]! : HOLE,
  };
}

function lineTrace(
  points: readonly PlanPoint[],
  name: string,
  color: string,
  dash: 'solid' | 'dash' | 'dot',
  showlegend: boolean,
): Trace {
  return {
    type: 'scatter',
    mode: 'lines',
    name: plotText(name),
    x: points.map(([x]) => x),
    y: points.map(([, y]) => y),
    line: { color, width: 2, dash },
    hoverinfo: 'skip',
    showlegend,
  };
}

const dotTrace = ([x, y]: PlanPoint, name: string): Trace => ({
  type: 'scatter',
  mode: 'markers',
  name: plotText(name),
  x: [x],
  y: [y],
  marker: { symbol: 'circle', size: 8, color: PASS },
  hoverinfo: 'skip',
  showlegend: true,
});

const probeTrace = ({ probes }: PlatePlan): Trace => ({
  type: 'scatter',
  mode: 'markers',
  name: 'probes',
  x: probes.map(({ xMm }) => xMm),
  y: probes.map(({ yMm }) => yMm),
  marker: { symbol: 'diamond', size: 9, color: INK },
  text: probes.map(({ name, face }) => plotText(face === 'bottom' ? `${name}, lower face` : name)),
  hovertemplate: '%{text} at %{x:.1f}, %{y:.1f} mm<extra></extra>',
  showlegend: probes.length > 0,
});

function regionLabel(
  { name, thicknessMm, shape }: PlatePlan['part'][number],
  outline: readonly PlanPoint[],
): Annotation {
  const middle = (axis: 0 | 1) =>
    (Math.min(...outline.map((p) => p[axis])) + Math.max(...outline.map((p) => p[axis]))) / 2;
  const what = thicknessMm > 0 ? `${thicknessMm} mm` : 'hole';
  const text = name ? `${name}, ${what}` : what;
  if (!('rectMm' in shape)) return label(text, [middle(0), middle(1)], QUIET_INK, 0);
  // In its corner a name is clear of probes and passes.
  const [left, top] = [Math.min(...outline.map(([x]) => x)), Math.max(...outline.map(([, y]) => y))];
  return { ...label(text, [left, top], QUIET_INK, -4), xanchor: 'left', yanchor: 'top', xshift: 4 };
}

/** Ends of passes nearer than this share of the drawing share an arrowhead: their numbers would meet. */
const ALIKE_SHARE = 0.04;
/** And no further turned than this, rad. */
const ALIKE_TURN = 0.3;

/** One arrowhead for all passes that end alike, with their numbers. */
function arrows(paths: readonly (readonly PlanPoint[])[], wideMm: number): Annotation[] {
  const groups: { path: readonly PlanPoint[]; numbers: number[] }[] = [];
  for (const [i, path] of paths.entries()) {
    if (path.length < 2) continue;
    const alike = groups.find(
      ({ path: other }) =>
        apart(path.at(-1)!, other.at(-1)!) < ALIKE_SHARE * wideMm && turn(path, other) < ALIKE_TURN,
    );
    if (alike) alike.numbers.push(i + 1);
    else groups.push({ path, numbers: [i + 1] });
  }
  return groups.map(({ path, numbers }) => arrow(path, numbers.join(', ')));
}

/** Angle between the ends of two passes, rad. */
function turn(a: readonly PlanPoint[], b: readonly PlanPoint[]): number {
  const [one, other] = [a, b].map((path) => {
    const [from, to] = [path.at(-2)!, path.at(-1)!];
    return Math.atan2(to[1] - from[1], to[0] - from[0]);
  });
  const between = Math.abs(one! - other!);
  return Math.min(between, 2 * Math.PI - between);
}

const apart = ([x0, y0]: PlanPoint, [x1, y1]: PlanPoint): number => Math.hypot(x1 - x0, y1 - y0);

/** An arrowhead at the end of a pass, in its direction, with its number. */
function arrow(path: readonly PlanPoint[], numbers: string): Annotation {
  const [from, to] = [path.at(-2)!, path.at(-1)!];
  const mm = apart(from, to);
  return {
    ...label(numbers, to, PASS, 0),
    showarrow: true,
    ax: (-24 * (to[0] - from[0])) / mm,
    ay: (24 * (to[1] - from[1])) / mm,
    arrowhead: 2,
    arrowcolor: PASS,
  };
}

const label = (text: string, [x, y]: PlanPoint, color: string, yshift: number): Annotation => ({
  text: plotText(text),
  x,
  y,
  xref: 'x',
  yref: 'y',
  xanchor: 'center',
  yanchor: 'middle',
  yshift,
  showarrow: false,
  font: { size: TEXT_PX, color },
  bgcolor: VEIL,
});
