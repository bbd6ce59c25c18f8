import { celsiusToFahrenheit, fahrenheitToCelsius } from '../../quantity';
import type { Annotation, Axis, Trace } from '../figure';
import { axisHeading, baseAxis } from './style';

/** Largest °F step first that gives at most this many labels over the range. */
const FAHRENHEIT_STEPS = [5, 10, 20, 50, 100, 200, 500, 1000] as const;
const MOST_LABELS = 9;

/**
 * °C on the left and °F on the right of one panel. The right axis holds the same °C range (`matches`, so the
 * two can never part when zoomed) and is labelled at the places where °F is round; labels run one span past
 * both ends so that panning finds them too.
 */
export function temperatureAxes(
  lowC: number,
  highC: number,
  domain: readonly [number, number],
  mostLabels: number = MOST_LABELS,
): { readonly left: Axis; readonly right: Axis; readonly headings: readonly Annotation[] } {
  const { tickvals, ticktext } = fahrenheitTicks(lowC, highC, mostLabels);
  const range = [lowC, highC] as const;
  return {
    left: { ...baseAxis(), range, domain },
    right: {
      ...baseAxis(),
      range,
      domain,
      overlaying: 'y',
      matches: 'y',
      side: 'right',
      showgrid: false,
      tickvals,
      ticktext,
    },
    headings: [axisHeading('°C', 'y domain'), axisHeading('°F', 'y domain', 'right')],
  };
}

/** A trace of its own that shows nothing: without one plotly leaves the right axis out. */
export function keepRightAxis(x: number, tempC: number): Trace {
  return {
    type: 'scatter',
    mode: 'markers',
    x: [x],
    y: [tempC],
    yaxis: 'y2',
    marker: { size: 0.1, color: 'rgba(0,0,0,0)' },
    hoverinfo: 'skip',
    showlegend: false,
  };
}

/** Places in °C where °F is a round number, and what to write there. */
export function fahrenheitTicks(
  lowC: number,
  highC: number,
  mostLabels: number = MOST_LABELS,
): { readonly tickvals: readonly number[]; readonly ticktext: readonly string[] } {
  const low = celsiusToFahrenheit(lowC);
  const high = celsiusToFahrenheit(highC);
  const span = high - low;
  const step =
    FAHRENHEIT_STEPS.find((s) => span / s <= mostLabels) ?? FAHRENHEIT_STEPS[FAHRENHEIT_STEPS.length - 1]!;
  const tickvals: number[] = [];
  const ticktext: string[] = [];
  for (let f = Math.ceil((low - span) / step) * step; f <= high + span; f += step) {
    tickvals.push(Number(fahrenheitToCelsius(f).toFixed(3)));
    ticktext.push(String(f));
  }
  return { tickvals, ticktext };
}
