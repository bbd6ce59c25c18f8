import { scaleLinear } from 'd3-scale';
import { celsiusToFahrenheit, fahrenheitToCelsius, MM_PER_INCH } from '../../quantity';
import type { Annotation, Axis, Figure, Layout, Shape, Trace } from '../figure';

/** A figure whose axes and colours read as a US shop reads them: °F before °C, lengths in inches. */
export const axesInUsUnits = (figure: Figure): Figure =>
  fahrenheitScale(AXES.reduceRight(inOwnUnit, fahrenheitLeft(figure)));

/** The numbers of °F go to the left, where they are read first. */
function fahrenheitLeft(figure: Figure): Figure {
  const { yaxis, yaxis2, annotations = [] } = figure.layout;
  if (!yaxis || !yaxis2?.ticktext) return figure;
  const { tickvals, ticktext, ...celsius } = yaxis2;
  return {
    ...figure,
    layout: {
      ...figure.layout,
      yaxis: { ...yaxis, tickvals: tickvals!, ticktext },
      // Else plotly numbers it where the left axis has its numbers, which are round in °F only.
      yaxis2: { ...celsius, tickmode: 'auto' },
      annotations: annotations.map((note) => ({
        ...note,
        text: note.yref === 'y domain' ? swapped(note.text) : note.text,
      })),
    },
  };
}

/** Of a heading: "Peak, °C" on the left, "°F" on the right. */
const swapped = (heading: string): string => (heading === '°F' ? '°C' : heading.replace(/(^|, )°C$/, '$1°F'));

/** What is along an axis, by the heading that names its unit. */
interface Along {
  readonly heading: RegExp;
  readonly us: string;
  readonly of: (value: number) => number;
}
const LENGTH: Along = { heading: /(?<=^|, )mm$/, us: 'in', of: (mm) => mm / MM_PER_INCH };
const PEAK: Along = { heading: /(?<=^Peak, )°C$/, us: '°F', of: celsiusToFahrenheit };
const DIFFERENCE: Along = { heading: /(?<= less .*, )°C$/, us: '°F', of: (kelvin) => 1.8 * kelvin };
const ALONG = [LENGTH, PEAK, DIFFERENCE];
const AXES = ['x', 'y', 'y3'] as const;
type AxisName = (typeof AXES)[number];
const KEYS = { x: 'xaxis', y: 'yaxis', y3: 'yaxis3' } as const;

function headingOf({ layout }: Figure, axis: AxisName): string {
  const { xaxis, yaxis, annotations } = layout;
  // A picture to scale names its unit once.
  if (axis === 'x' || (axis === 'y' && yaxis?.scaleanchor === 'x')) return xaxis?.title?.text ?? '';
  return (
    annotations?.find(
      ({ yref, text }) => yref === `${axis} domain` && ALONG.some(({ heading }) => heading.test(text)),
    )?.text ?? ''
  );
}

/** Everything along one axis in the unit a US shop reads there. */
function inOwnUnit(figure: Figure, axis: AxisName): Figure {
  const along = ALONG.find(({ heading }) => heading.test(headingOf(figure, axis)));
  const of = figure.layout[KEYS[axis]];
  if (!along || !of) return figure;
  const { data, layout } = figure;
  const coordinate = axis === 'x' ? 'x' : 'y';
  const turn = <T>(value: T): T => (typeof value === 'number' ? (along.of(value) as T) : value);
  const turnAll = <T>(values: T): T =>
    Array.isArray(values) || ArrayBuffer.isView(values) ? (Array.from(values as never, turn) as T) : values;
  const hovered = new RegExp(`(%\\{${coordinate}[^}]*\\}) (?:mm|°C)`);
  const told = (heading: string): string => heading.replace(along.heading, along.us);
  const [from, to] = axis === 'x' ? (['x0', 'x1'] as const) : (['y0', 'y1'] as const);
  const ref = axis === 'x' ? 'xref' : 'yref';
  return {
    data: data.map((trace): Trace => {
      if (!trace[coordinate] || (axis !== 'x' && (trace.yaxis ?? 'y') !== axis)) return trace;
      const { hovertemplate: hovers } = trace;
      return {
        ...trace,
        [coordinate]: turnAll(trace[coordinate]),
        ...(typeof hovers === 'string' ? { hovertemplate: hovers.replace(hovered, `$1 ${along.us}`) } : {}),
      };
    }),
    layout: {
      ...layout,
      [KEYS[axis]]: {
        ...of,
        ...(of.range ? { range: turnAll(of.range) } : {}),
        ...(of.tickvals ? { tickvals: turnAll(of.tickvals) } : {}),
        ...(of.title ? { title: { ...of.title, text: told(of.title.text) } } : {}),
      } satisfies Axis,
      annotations: layout.annotations?.map(
        (note): Annotation => ({
          ...note,
          ...(note[ref] === axis ? { [coordinate]: turn(note[coordinate]) } : {}),
          ...(note.yref === `${axis} domain` ? { text: told(note.text) } : {}),
        }),
      ),
      shapes: layout.shapes?.map(
        (shape): Shape =>
          shape[ref] === axis ? { ...shape, [from]: turn(shape[from]), [to]: turn(shape[to]) } : shape,
      ),
    } satisfies Layout,
  };
}

/** Colours and isotherms by °F; along the bar °F is round, each with its °C. */
function fahrenheitScale(figure: Figure): Figure {
  const isTemperature = figure.data.some(({ colorbar }) => colorbar?.title?.text === '°C (°F)');
  return isTemperature ? { ...figure, data: figure.data.map(colouredByFahrenheit) } : figure;
}

function colouredByFahrenheit(trace: Trace): Trace {
  const { z, zmin, zmax, contours, colorbar, hovertemplate } = trace;
  if (!z) return trace;
  const tickvals = scaleLinear()
    .domain([zmin, zmax].map((c) => celsiusToFahrenheit(c ?? 0)))
    .ticks(6);
  return {
    ...trace,
    z: z.map((row) => Array.from(row, (c) => (c === null ? null : celsiusToFahrenheit(c)))),
    ...(zmin === undefined ? {} : { zmin: celsiusToFahrenheit(zmin) }),
    ...(zmax === undefined ? {} : { zmax: celsiusToFahrenheit(zmax) }),
    ...(contours
      ? {
          contours: {
            ...contours,
            start: celsiusToFahrenheit(contours.start),
            end: celsiusToFahrenheit(contours.end),
            size: 1.8 * contours.size,
          },
        }
      : {}),
    ...(colorbar
      ? {
          colorbar: {
            ...colorbar,
            title: { ...colorbar.title, text: '°F (°C)' },
            tickvals,
            ticktext: tickvals.map((f) => `${f} (${Math.round(fahrenheitToCelsius(f))})`),
          },
        }
      : {}),
    ...(hovertemplate === undefined
      ? {}
      : { hovertemplate: String(hovertemplate).replace('%{z:.0f} °C', '%{z:.0f} °F') }),
  };
}
