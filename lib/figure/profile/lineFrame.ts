import { extent } from 'simple-statistics';
import { formatTemp } from '../../quantity';
import type { Annotation, Axis, Layout, Trace } from '../figure';
import { endLabels } from '../parts/endLabels';
import { shortName } from '../parts/naming';
import { MARGIN, textWidthPx } from '../parts/panel';
import { axisHeading, baseAxis, baseLayout, levelLine, TEXT_PX } from '../parts/style';
import { keepRightAxis, temperatureAxes } from '../parts/temperatureAxes';

/** A level drawn across and named, in the quantity's unit. */
export interface Level {
  readonly name: string;
  readonly value: number;
}

/** What stands round lines of one quantity. */
interface LineFrame {
  readonly title: string;
  readonly heightPx: number;
  /** With its unit; "Peak, °C" gets an axis in °F as well. */
  readonly quantity: string;
  readonly range: readonly [number, number];
  readonly levels: readonly Level[];
  readonly levelsNamedAt: 'left' | 'right';
  /** The name of each line, and where it ends. */
  readonly ends: readonly { readonly name: string; readonly at: number }[];
  readonly along: { readonly range: readonly [number, number]; readonly title: string } & Pick<
    Axis,
    'tickvals' | 'ticktext'
  >;
}

/** Width of the °F labels right of the plot: names of lines stand beyond them. */
const FAHRENHEIT_PX = 32;

/** Axes, levels and names of lines over one quantity; a temperature has °F on the right, held there by a trace of its own. */
export function lineFrame({
  title,
  heightPx,
  quantity,
  range,
  levels,
  levelsNamedAt,
  ends,
  along,
}: LineFrame): {
  readonly layout: Layout & { readonly annotations: readonly Annotation[] };
  readonly rightAxis: readonly Trace[];
} {
  const inCelsius = quantity.endsWith('°C');
  const fahrenheit = inCelsius ? temperatureAxes(...range, [0, 1]) : undefined;
  const beyondPx = fahrenheit ? FAHRENHEIT_PX : 0;
  const named = levels.map(({ name, value }) =>
    levelLine(value, inCelsius ? `${name} ${formatTemp(value)}` : name, 'y', {
      end: levelsNamedAt,
      side: 'above',
    }),
  );
  const labels = ends.map(({ name }) => shortName(name));
  const { title: alongTitle, ...alongAxis } = along;
  return {
    layout: {
      ...baseLayout(title, MARGIN.t + heightPx + MARGIN.b),
      margin: { ...MARGIN, r: Math.max(20, ...labels.map((label) => textWidthPx(label) + 22 + beyondPx)) },
      xaxis: {
        ...baseAxis(),
        ...alongAxis,
        title: { text: alongTitle, standoff: 8, font: { size: TEXT_PX } },
        showgrid: false,
        showline: true,
        linecolor: '#b9bec6',
        anchor: 'y',
      },
      yaxis: { ...baseAxis(), range },
      ...(fahrenheit ? { yaxis2: fahrenheit.right } : {}),
      annotations: [
        axisHeading(quantity, 'y domain'),
        ...(fahrenheit ? [axisHeading('°F', 'y domain', 'right')] : []),
        ...named.map(({ label }) => label),
        ...endLabels(
          ends.map(({ at }, look) => ({ text: labels[look]!, look, at })),
          'y',
          heightPx / (range[1] - range[0]),
          beyondPx,
        ),
      ],
      shapes: named.map(({ shape }) => shape),
    },
    rightAxis: fahrenheit ? [keepRightAxis(along.range[0], range[0])] : [],
  };
}

/** From the lowest to the highest value, with a share of that to spare. */
export function rangeOf(values: readonly number[], spare: number): readonly [number, number] {
  const [lowest, highest] = extent([...values]);
  const pad = (highest - lowest || 1) * spare;
  return [lowest - pad, highest + pad];
}
