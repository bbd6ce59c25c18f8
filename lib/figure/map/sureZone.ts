import type { Trace } from '../figure';
import { withAlpha } from '../parts/style';
import type { MapGrid } from './mapField';

const SURE = '#0b6a4c';

/** The zone in which even the worst case keeps what is needed, and its edge. */
export function sureZone(
  keptLow: MapGrid,
  timeS: readonly number[],
  tempC: readonly number[],
  needed: number,
): Trace[] {
  const edge = sureEdge(worstBelow(keptLow), timeS, tempC, needed);
  const top = edge[edge.length - 1];
  if (!top) return [];
  const [firstS, lastS, lowC] = [timeS[0]!, timeS[timeS.length - 1]!, tempC[0]!];
  const along = (outline: readonly Place[]): Trace => ({
    type: 'scatter',
    mode: 'lines',
    x: outline.map(({ s }) => Number(s.toPrecision(6))),
    y: outline.map(({ c }) => Number(c.toFixed(2))),
    yaxis: 'y',
    hoverinfo: 'skip',
  });
  const corners = [
    { s: firstS, c: top.c },
    { s: firstS, c: lowC },
    ...(edge[0]!.c > lowC ? [{ s: lastS, c: lowC }] : []),
  ];
  return [
    {
      ...along([...edge, ...corners]),
      fill: 'toself',
      fillcolor: withAlpha(SURE, 0.13),
      line: { color: SURE, width: 0 },
      showlegend: false,
    },
    {
      ...along(edge),
      name: `below this the worst case keeps ${Math.round(needed * 100)} %`,
      line: { color: SURE, width: 2.4 },
      showlegend: true,
    },
  ];
}

/**
 * The lowest of everything cooler and shorter. A line that says "below this" may not leave out a dip that more heat
 * mends.
 */
function worstBelow(keptLow: MapGrid): MapGrid {
  const lowest: (number | null)[][] = [];
  for (const [i, row] of keptLow.entries()) {
    const below = lowest[i - 1];
    const line: (number | null)[] = [];
    for (const [j, kept] of row.entries()) {
      const seen = [line[j - 1], below?.[j]].map((value) => value ?? Number.POSITIVE_INFINITY);
      line.push(kept === null ? null : Math.min(kept, ...seen));
    }
    lowest.push(line);
  }
  return lowest;
}

interface Place {
  readonly s: number;
  readonly c: number;
}

/**
 * In every row the time at which the low line first falls below what is needed, interpolated in the logarithm of
 * time; closed by the temperature at which the last and the first column do, so that it runs to both borders.
 */
function sureEdge(
  keptLow: MapGrid,
  timeS: readonly number[],
  tempC: readonly number[],
  needed: number,
): readonly Place[] {
  const edge: Place[] = [];
  const share = (before: number, after: number): number => (before - needed) / (before - after);
  const across = (i: number, j: number): Place[] => {
    const [cool, hot] = [keptLow[i - 1]?.[j], keptLow[i]?.[j]];
    if (typeof cool !== 'number' || typeof hot !== 'number' || cool < needed || hot >= needed) return [];
    return [{ s: timeS[j]!, c: tempC[i - 1]! + share(cool, hot) * (tempC[i]! - tempC[i - 1]!) }];
  };
  for (const [i, row] of keptLow.entries()) {
    const j = row.findIndex((kept) => kept !== null && kept < needed);
    edge.push(...across(i, row.length - 1));
    if (j > 0)
      edge.push({
        s: timeS[j - 1]! * (timeS[j]! / timeS[j - 1]!) ** share(row[j - 1]!, row[j]!),
        c: tempC[i]!,
      });
    edge.push(...across(i, 0));
    if (j === 0) break;
  }
  return edge;
}
