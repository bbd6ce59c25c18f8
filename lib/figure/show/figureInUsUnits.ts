import { celsiusToFahrenheit, inUsUnits } from '../../quantity';
import type { Annotation, Axis, Figure, Trace } from '../figure';
import { axesInUsUnits } from './axesInUsUnits';

/**
 * A figure as a US shop reads it: °F on the left and °C on the right, lengths along its axes in inches, and its texts by
 * `inUsUnits`. `names` are texts that people gave, which stay.
 */
export function figureInUsUnits(figure: Figure, names: readonly string[] = []): Figure {
  return worded(axesInUsUnits(figure), names);
}

/**
 * "TC1 290 °C": a temperature by itself, which has no room for its other scale. Where the label stands at that temperature
 * it is turned from there: from the rounded figure it would be a degree beside what a table says.
 */
const ALONE = /(?<![\w(.])([−-]?\d+(?:\.\d+)?)([ \u00a0])°C(?!(?: |<br>)\(|\/)/gu;

function worded({ data, layout }: Figure, names: readonly string[]): Figure {
  const told = (text: string, atC?: Annotation['y']): string =>
    inUsUnits(
      text.replace(ALONE, (_, c: string, space: string) => {
        const rounded = Number(c.replace('−', '-'));
        const tempC = typeof atC === 'number' && Math.round(atC) === rounded ? atC : rounded;
        return `${celsiusToFahrenheit(tempC).toFixed(0)}${space}°F`;
      }),
      names,
    );
  const titled = (axis: Axis | undefined): Axis | undefined =>
    axis?.title ? { ...axis, title: { ...axis.title, text: told(axis.title.text) } } : axis;
  return {
    data: data.map((trace) => ({
      ...trace,
      ...(trace.name === undefined ? {} : { name: told(trace.name, hottestOf(trace)) }),
      ...hover(trace),
    })),
    layout: {
      ...layout,
      ...(layout.xaxis ? { xaxis: titled(layout.xaxis) } : {}),
      ...(layout.title
        ? { title: { ...layout.title, text: told(layout.title.text).replace(/, in mm$/, ', in inches') } }
        : {}),
      annotations: layout.annotations?.map((note) => ({
        ...note,
        text: told(note.text, note.yref === 'y' ? note.y : undefined),
      })),
    },
  };
}

/** What the name of a line gives beside it, unrounded. */
const hottestOf = ({ y = [], yaxis = 'y' }: Trace): number | undefined =>
  yaxis === 'y' && y.length > 0 ? Math.max(...y.map((c) => c ?? Number.NEGATIVE_INFINITY)) : undefined;

/** What stands beside the pointer: °F of each point goes with it. */
function hover({ hovertemplate: template, y }: Trace): Partial<Trace> {
  const celsius = /%\{y(?::[^}]*)?\} °C(?: \(%\{customdata\} °F\))?/.exec(String(template ?? ''))?.[0];
  if (celsius === undefined) return {};
  return {
    hovertemplate: String(template).replace(celsius, '%{customdata} °F (%{y:.0f} °C)'),
    customdata: Array.from(y ?? [], (c) => (c === null ? null : celsiusToFahrenheit(c).toFixed(0))),
  };
}
