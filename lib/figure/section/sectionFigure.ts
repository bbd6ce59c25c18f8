import {
  bodyPolygons,
  type Point,
  propertiesOf,
  type SectionFactor,
  sectionBody,
  type WeldedResistance,
} from '../../section';
import type { Annotation, Figure, Trace } from '../figure';
import { MARGIN } from '../parts/panel';
import { baseAxis, baseLayout, INK, plotText, QUIET_INK, TEXT_PX, withAlpha, wrapped } from '../parts/style';

/** Metal as it was, and metal the weld made soft: told apart by lightness as well as hue. */
const FULL = '#c9ced6';
const SOFT = '#b8500f';
/** Higher than any width asks for at one scale: the axes' own proportion decides. */
const PLOT_PX = 400;
/** From the plot to the note under the axis and its title; and a line of it. */
const UNDER_AXIS_PX = 44;
const LINE_PX = 16;

/** What is drawn beside the section. */
export interface SectionPicture {
  /** Marks the point that governs. */
  readonly factor?: SectionFactor;
  readonly title?: string;
}

/** The section to scale: metal, soft zone, welds, and the point that governs. */
export function sectionFigure(resistance: WeldedResistance, { factor, title }: SectionPicture = {}): Figure {
  const body = sectionBody(resistance.section.shape);
  const metal = bodyPolygons(body);
  const { xRange, yRange } = frame(metal.flat());
  const { alloy, temper } = resistance.options;
  const share = resistance.softAreaMm2 / propertiesOf(body.moments).areaMm2;
  const governs = factor
    ? wrapped(`◇ governs: ${factor.governs.check}, factor ${factor.factor.nominal.toFixed(2)}`, 46)
    : [];
  const bottomPx = governs.length > 0 ? UNDER_AXIS_PX + LINE_PX * governs.length : MARGIN.b;
  return {
    data: [
      ...metal.map((ring) => area(ring, FULL, 'metal')),
      ...resistance.softPolygons().map((ring) => area(ring, withAlpha(SOFT, 0.6), 'soft zone')),
      // Outlines last, so that a soft zone does not hide where the metal ends.
      ...metal.flatMap(contours).map(edge),
      ...welds(resistance),
      ...(factor ? [governingPoint(factor)] : []),
    ],
    layout: {
      ...baseLayout(
        title ?? `Section of ${alloy}-${temper} with its soft zone`,
        MARGIN.t + PLOT_PX + bottomPx,
      ),
      margin: { ...MARGIN, r: 20, b: bottomPx },
      xaxis: {
        ...baseAxis(),
        range: xRange,
        showgrid: false,
        title: { text: 'mm', standoff: 8, font: { size: TEXT_PX } },
        anchor: 'y',
      },
      yaxis: { ...baseAxis(), range: yRange, showgrid: false, scaleanchor: 'x' },
      annotations: [
        note(
          share > 0
            ? `Shaded: soft beside the weld, ${(100 * share).toFixed(0)} % of the section`
            : 'No weld, no soft zone',
          'left',
        ),
        ...(governs.length > 0 ? [governingNote(governs)] : []),
      ],
    },
  };
}

function area(ring: readonly Point[], color: string, name: string): Trace {
  const hole = signedArea(ring) < 0;
  return {
    type: 'scatter',
    mode: 'lines',
    name,
    x: closed(ring).map(([x]) => x),
    y: closed(ring).map(([, y]) => y),
    line: { color, width: 0 },
    fill: 'toself',
    fillcolor: hole ? '#ffffff' : color,
    hoverinfo: 'skip',
    showlegend: false,
  };
}

/** A full ring of wall is drawn as two circles, without the seam where its polygon closes. */
function contours(ring: readonly Point[]): (readonly Point[])[] {
  const half = ring.length / 2;
  const [outer, inner] = [ring.slice(0, half), ring.slice(half)];
  const meets = (points: readonly Point[]): boolean => {
    const [first, last] = [points[0], points[points.length - 1]];
    return points.length > 2 && Math.hypot(first![0] - last![0], first![1] - last![1]) < 1e-9;
  };
  return Number.isInteger(half) && meets(outer) && meets(inner) ? [outer, inner] : [ring];
}

const edge = (ring: readonly Point[]): Trace => ({
  type: 'scatter',
  mode: 'lines',
  x: closed(ring).map(([x]) => x),
  y: closed(ring).map(([, y]) => y),
  line: { color: QUIET_INK, width: 0.8, simplify: false },
  hoverinfo: 'skip',
  showlegend: false,
});

function welds({ section }: WeldedResistance): Trace[] {
  const points = section.welds.flatMap((weld): Point[] =>
    weld.lies === 'along' ? [weld.atMm] : weld.lies === 'part-way' ? [weld.fromMm, weld.toMm] : [],
  );
  if (points.length === 0) return [];
  return [
    {
      type: 'scatter',
      mode: 'markers',
      name: 'weld',
      x: points.map(([x]) => x),
      y: points.map(([, y]) => y),
      marker: { symbol: 'triangle-up', size: 10, color: INK },
      hovertemplate: 'weld at %{x:.3~g}, %{y:.3~g} mm<extra></extra>',
      showlegend: false,
    },
  ];
}

function governingPoint({ governs, factor }: SectionFactor): Trace {
  return {
    type: 'scatter',
    mode: 'markers',
    name: 'governs',
    x: [governs.atMm[0]],
    y: [governs.atMm[1]],
    marker: { symbol: 'diamond-open', size: 12, color: INK, line: { color: INK, width: 2 } },
    hovertemplate: `${plotText(governs.check)}<br>factor ${factor.nominal.toFixed(2)}<extra></extra>`,
    showlegend: false,
  };
}

/** Under the axis, as beside its mark it would lie on the section. */
const governingNote = (lines: readonly string[]): Annotation => ({
  text: lines.map(plotText).join('<br>'),
  x: 0,
  y: 0,
  xref: 'paper',
  yref: 'paper',
  xanchor: 'left',
  yanchor: 'top',
  align: 'left',
  yshift: -UNDER_AXIS_PX,
  showarrow: false,
  font: { size: TEXT_PX, color: INK },
});

function note(text: string, side: 'left' | 'right'): Annotation {
  return {
    text: plotText(text),
    x: side === 'left' ? 0 : 1,
    y: 1,
    xref: 'paper',
    yref: 'paper',
    xanchor: side,
    yanchor: 'bottom',
    yshift: 6,
    showarrow: false,
    font: { size: TEXT_PX, color: QUIET_INK },
  };
}

/** Room around the metal, in a box about twice as wide as high, so that one scale fits both axes. */
function frame(points: readonly Point[]): {
  readonly xRange: readonly [number, number];
  readonly yRange: readonly [number, number];
} {
  const span = (k: 0 | 1): [number, number] => {
    const values = points.map((point) => point[k]);
    return [Math.min(...values), Math.max(...values)];
  };
  const [[x0, x1], [y0, y1]] = [span(0), span(1)];
  const height = Math.max(1.35 * (y1 - y0), (1.2 * (x1 - x0)) / 2);
  const width = 2 * height;
  const [xm, ym] = [(x0 + x1) / 2, (y0 + y1) / 2];
  return { xRange: [xm - width / 2, xm + width / 2], yRange: [ym - height / 2, ym + height / 2] };
}

const closed = (ring: readonly Point[]): readonly Point[] => (ring.length > 0 ? [...ring, ring[0]!] : ring);

const signedArea = (ring: readonly Point[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length]!;
    return sum + x * ny - nx * y;
  }, 0);
