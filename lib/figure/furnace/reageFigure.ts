import type { ReageCurve } from '../../heattreat';
import { formatTemp, formatTempSpan } from '../../quantity';
import type { Figure, Trace } from '../figure';
import { endLabels } from '../parts/endLabels';
import { assemble, textWidthPx } from '../parts/panel';
import { requireSome } from '../parts/requireSome';
import { axisHeading, baseAxis, lineLook, plotText, withAlpha } from '../parts/style';
import { timeAxis, timeScale } from '../parts/timeScale';

const HEIGHT_PX = 300;

/**
 * Share of the yield before the heat against the time of a re-age, in %, one line for each temperature, shaded as far as the furnace's own tolerance
 * moves it. Throws `TemperbookError` when there is no curve.
 */
export function reageFigure(
  curves: readonly ReageCurve[],
  { title = 'Strength after ageing again' }: { readonly title?: string } = {},
): Figure {
  const shown = requireSome(curves, 're-age');
  const times = shown.flatMap(({ timeS }) => timeS);
  const span = { fromS: Math.min(...times), toS: Math.max(...times) };
  const scale = timeScale(span.toS - span.fromS);
  const percent = (shares: readonly number[]) => shares.map((share) => 100 * share);
  const values = shown.flatMap(({ low, high }) => percent([...low, ...high]));
  const room = (Math.max(...values) - Math.min(...values) || 1) * 0.08;
  const range = [Math.min(...values) - room, Math.max(...values) + room] as const;
  const names = shown.map(({ tempC }) => formatTemp(tempC));
  const x = (timeS: readonly number[]) => timeS.map((t) => Number((t / scale.secondsPerUnit).toPrecision(7)));
  return assemble(title, HEIGHT_PX, timeAxis(scale, span.fromS, span.toS, 'y'), [
    {
      data: shown.flatMap((curve, k): Trace[] => {
        // Told apart by their dashes too: not every printer has colours.
        const { color, dash } = lineLook(k, 'legend');
        const base = { type: 'scatter', mode: 'lines', yaxis: 'y', showlegend: false } as const;
        return [
          {
            ...base,
            name: plotText(`${names[k]}, furnace ± ${formatTempSpan(curve.toleranceK)}`),
            x: [...x(curve.timeS), ...x(curve.timeS).reverse()],
            y: percent([...curve.high, ...[...curve.low].reverse()]),
            fill: 'toself',
            fillcolor: withAlpha(color, 0.16),
            line: { width: 0, color },
            hoverinfo: 'skip',
          },
          {
            ...base,
            name: plotText(names[k]!),
            x: x(curve.timeS),
            y: percent(curve.nominal),
            line: { color, width: 1.8, dash },
            hovertemplate: `${plotText(names[k]!)}<br>%{y:.0f} % of the yield before<br>%{x} ${scale.unit}<extra></extra>`,
          },
        ];
      }),
      annotations: [
        axisHeading('Yield, % of before', 'y domain'),
        ...endLabels(
          shown.map(({ nominal }, k) => ({
            text: names[k]!,
            look: k,
            at: 100 * nominal[nominal.length - 1]!,
          })),
          'y',
          HEIGHT_PX / (range[1] - range[0]),
        ),
      ],
      shapes: [],
      axes: { yaxis: { ...baseAxis(), range, domain: [0, 1] } },
      rightPx: Math.max(...names.map(textWidthPx)) + 20,
      legendNames: [],
    },
  ]);
}
