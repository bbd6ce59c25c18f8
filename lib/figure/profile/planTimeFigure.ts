import type { PlanComparison } from '../../planning';
import { TemperbookError } from '../../quantity';
import type { Annotation, Figure, Trace } from '../figure';
import { assemble } from '../parts/panel';
import { requireSome } from '../parts/requireSome';
import { spreadLabels } from '../parts/spreadLabels';
import { axisHeading, baseAxis, lineLook, plotText, TEXT_PX, VEIL } from '../parts/style';
import { timeAxis, timeScale } from '../parts/timeScale';
import { VERDICT_SYMBOL } from '../parts/verdictSymbol';

const HEIGHT_PX = 260;
const GAP_PX = 15;
/** How far a name stands above its mark. */
const ABOVE_PX = 3;
/** A mark beyond this share of the axis has its name on its left. */
const RIGHT_FROM = 0.5;

/**
 * What each plan of a comparison leaves of one metal, in % of its yield, against the time it takes: the middle of the plausible
 * jobs, bars from 5 to 95 of 100 both ways, each named where it stands; circle kept, open diamond uncertain, square lost.
 * @param alloy the metal; default the one that ranks.
 * @throws TemperbookError for a metal that was not compared.
 */
export function planTimeFigure({ plans }: Pick<PlanComparison, 'plans'>, alloy?: string): Figure {
  const shown = requireSome(plans, 'plan').map(({ name, clockTimeS, metals }, look) => {
    const metal = alloy === undefined ? metals[0] : metals.find((one) => one.alloy === alloy);
    if (!metal)
      throw new TemperbookError('The plans were not compared for this metal', {
        found: `"${alloy}"`,
        expected: metals.map((one) => `"${one.alloy}"`).join(', '),
      });
    const { nominal, low, high } = metal.yieldKeptFraction;
    return {
      name,
      look,
      metal,
      clockTimeS,
      kept: { nominal: 100 * nominal, low: 100 * low, high: 100 * high },
    };
  });
  const longestS = Math.max(...shown.map(({ clockTimeS }) => clockTimeS.high));
  const scale = timeScale(longestS);
  const x = (timeS: number) => Number((timeS / scale.secondsPerUnit).toPrecision(5));
  const lowest = Math.min(...shown.map(({ kept }) => kept.low));
  const highest = Math.max(...shown.map(({ kept }) => kept.high));
  const room = Math.max(1, 0.08 * (highest - lowest));
  const range = [Math.max(0, lowest - room), highest + room] as const;
  const pxPerUnit = HEIGHT_PX / (range[1] - range[0]);
  const ends = shown.map(({ kept }) => -kept.nominal * pxPerUnit);
  const placed = spreadLabels(ends, GAP_PX);
  const { alloy: name, temper } = shown[0]!.metal;
  return assemble(
    `${name}-${temper}: strength kept against the time it takes`,
    HEIGHT_PX,
    {
      ...timeAxis(scale, 0, 1.02 * longestS, 'y'),
      title: {
        text: `Clock time from start to the last arc out, ${scale.unit}`,
        standoff: 8,
        font: { size: TEXT_PX },
      },
    },
    [
      {
        data: shown.flatMap(({ name: plan, look, metal, clockTimeS, kept }): Trace[] => {
          const { color } = lineLook(look);
          const at = [x(clockTimeS.nominal), kept.nominal] as const;
          return [
            {
              type: 'scatter',
              mode: 'lines',
              x: [at[0], at[0], null, x(clockTimeS.low), x(clockTimeS.high)],
              y: [kept.low, kept.high, null, at[1], at[1]],
              line: { color, width: 1.6 },
              opacity: 0.45,
              showlegend: false,
              hoverinfo: 'skip',
            },
            {
              type: 'scatter',
              mode: 'markers',
              name: plotText(plan),
              x: [at[0]],
              y: [Number(at[1].toPrecision(5))],
              marker: { color, size: 8, symbol: VERDICT_SYMBOL[metal.verdict], line: { color, width: 1.4 } },
              hovertemplate: `${plotText(plan)}<br>%{y:.0f} % in %{x:.3~g} ${scale.unit}<extra></extra>`,
              showlegend: false,
            },
          ];
        }),
        annotations: [
          axisHeading(`Yield, % of before; bars 5 to 95 of 100`, 'y domain'),
          ...shown.map(({ name: plan, look, clockTimeS, kept }, k): Annotation => {
            const { color } = lineLook(look);
            const isRight = clockTimeS.nominal > RIGHT_FROM * longestS;
            return {
              text: plotText(plan),
              x: x(clockTimeS.nominal),
              y: kept.nominal,
              xref: 'x',
              yref: 'y',
              xanchor: isRight ? 'right' : 'left',
              // Above its own bar of time, which would run through it.
              yanchor: 'bottom',
              showarrow: true,
              arrowhead: 0,
              arrowwidth: 0.8,
              arrowcolor: color,
              ax: isRight ? -14 : 14,
              ay: Number((placed[k]! - ends[k]! - ABOVE_PX).toFixed(1)),
              bgcolor: VEIL,
              font: { size: TEXT_PX, color, weight: 600 },
            };
          }),
        ],
        shapes: [],
        axes: { yaxis: { ...baseAxis(), range } },
        rightPx: 24,
        legendNames: [],
      },
    ],
  );
}
