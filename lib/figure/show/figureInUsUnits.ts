import { celsiusToFahrenheit, inUsUnits, MM_PER_INCH } from '../../quantity';
import type { Annotation, Axis, Figure, Layout, Shape, Trace } from '../figure';

/**
 * A figure as a US shop reads it: °F on the left and °C on the right, lengths along its axes in inches, and its texts by
 * `inUsUnits`. `names` are texts that people gave, which stay.
 */
export function figureInUsUnits(figure: Figure, names: readonly string[] = []): Figure {
  const inInches = (['x', 'y'] as const).filter((axis) => isInMm(figure, axis));
  return worded(inInches.reduce(scaled, fahrenheitLeft(figure)), names);
}

/** The numbers of °F go to the left, where they are read first. */
function fahrenheitLeft(figure: Figure): Figure {
  const { yaxis, yaxis2, annotations = [] } = figure.layout;
  if (!yaxis || !yaxis2?.ticktext) return figure;
  const { tickvals, ticktext, ...celsius } = yaxis2;
  const other = { '°C': '°F', '°F': '°C' } as Readonly<Record<string, string>>;
  return {
    ...figure,
    layout: {
      ...figure.layout,
      yaxis: { ...yaxis, tickvals: tickvals!, ticktext },
      yaxis2: celsius,
      annotations: annotations.map((note) => ({ ...note, text: other[note.text] ?? note.text })),
    },
  };
}

const IN_MM = /, mm$/;

const headingOf = ({ layout }: Figure, axis: 'x' | 'y'): string | undefined =>
  axis === 'x'
    ? layout.xaxis?.title?.text
    : layout.annotations?.find(({ yref, text }) => yref === 'y domain' && IN_MM.test(text))?.text;

const isInMm = (figure: Figure, axis: 'x' | 'y'): boolean => IN_MM.test(headingOf(figure, axis) ?? '');

/** Everything along one axis in inches. */
function scaled(figure: Figure, axis: 'x' | 'y'): Figure {
  const { data, layout } = figure;
  const inch = <T>(value: T): T => (typeof value === 'number' ? ((value / MM_PER_INCH) as T) : value);
  const inches = <T>(values: T): T =>
    Array.isArray(values) || ArrayBuffer.isView(values) ? (Array.from(values as never, inch) as T) : values;
  const axisInches = (of: Axis): Axis => ({
    ...of,
    ...(of.range ? { range: inches(of.range) } : {}),
    ...(of.tickvals ? { tickvals: inches(of.tickvals) } : {}),
    ...(of.title ? { title: { ...of.title, text: of.title.text.replace(IN_MM, ', in') } } : {}),
  });
  const [from, to] = axis === 'x' ? (['x0', 'x1'] as const) : (['y0', 'y1'] as const);
  const ref = axis === 'x' ? 'xref' : 'yref';
  return {
    data: data.map((trace): Trace => ({ ...trace, ...(trace[axis] ? { [axis]: inches(trace[axis]) } : {}) })),
    layout: {
      ...layout,
      ...(axis === 'x' ? { xaxis: axisInches(layout.xaxis!) } : { yaxis: axisInches(layout.yaxis!) }),
      annotations: layout.annotations?.map(
        (note): Annotation => ({
          ...note,
          ...(note[ref] === axis ? { [axis]: inch(note[axis]) } : {}),
          ...(axis === 'y' && note.yref === 'y domain' ? { text: note.text.replace(IN_MM, ', in') } : {}),
        }),
      ),
      shapes: layout.shapes?.map(
        (shape): Shape =>
          shape[ref] === axis ? { ...shape, [from]: inch(shape[from]), [to]: inch(shape[to]) } : shape,
      ),
    } satisfies Layout,
  };
}

/**
 * "TC1 290 °C": a temperature by itself, which has no room for its other scale. Where the label stands at that temperature
 * it is turned from there: from the rounded figure it would be a degree beside what a table says.
 */
const ALONE = /(?<![\w(.])([−-]?\d+(?:\.\d+)?)([ \u00a0])°C(?! \(|\/)/gu;

function worded({ data, layout }: Figure, names: readonly string[]): Figure {
  const told = (text: string, atC?: Annotation['y']): string =>
    inUsUnits(text, names).replace(ALONE, (_, c: string, space: string) => {
      const rounded = Number(c.replace('−', '-'));
      const tempC = typeof atC === 'number' && Math.round(atC) === rounded ? atC : rounded;
      return `${celsiusToFahrenheit(tempC).toFixed(0)}${space}°F`;
    });
  const hover = (template: string): string =>
    template
      .replace('%{y:.0f} °C (%{customdata} °F)', '%{customdata} °F (%{y:.0f} °C)')
      .replace(/(%\{[xy]:[^}]+\}) mm/g, '$1 in');
  return {
    data: data.map((trace) => ({
      ...trace,
      ...(trace.name === undefined ? {} : { name: told(trace.name) }),
      ...(typeof trace.hovertemplate === 'string' ? { hovertemplate: hover(trace.hovertemplate) } : {}),
    })),
    layout: {
      ...layout,
      ...(layout.title ? { title: { ...layout.title, text: told(layout.title.text) } } : {}),
      annotations: layout.annotations?.map((note) => ({
        ...note,
        text: told(note.text, note.yref === 'y' ? note.y : undefined),
      })),
    },
  };
}
