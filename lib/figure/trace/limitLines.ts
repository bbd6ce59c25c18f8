import { formatTemp } from '../../quantity';
import type { Annotation, Shape } from '../figure';
import type { Taken } from '../parts/spreadLabels';
import { levelLine } from '../parts/style';
import type { TracedChannel } from './tracedChannel';

/** A temperature drawn across the trace and named on its line. */
export interface FigureLimit {
  readonly name: string;
  readonly limitC: number;
}

/** Height of a name, which takes two lines so that it stays beside the peaks on a phone, and with what is kept free around it, px. */
const NAME_PX = 30;
const LABEL_PX = NAME_PX + 4;

/** The limits as lines with their names on them, at the end and on the side where there is room. */
export function limitLines(
  limits: readonly FigureLimit[],
  channels: readonly TracedChannel[],
  span: { readonly fromS: number; readonly toS: number },
  pxPerC: number,
): {
  readonly shapes: readonly Shape[];
  readonly annotations: readonly Annotation[];
  /** Where the names stand, px down from 0 °C. */
  readonly taken: readonly Taken[];
} {
  const end = emptierEnd(channels, span);
  const lines = limits.map(({ name, limitC }) =>
    levelLine(limitC, `${name}\n${formatTemp(limitC)}`, 'y', {
      end,
      side: roomAbove(limitC, limits, pxPerC),
    }),
  );
  return {
    shapes: lines.map(({ shape }) => shape),
    annotations: lines.map(({ label }) => label),
    taken: limits.map(({ limitC }) => {
      const linePx = -limitC * pxPerC;
      return roomAbove(limitC, limits, pxPerC) === 'above'
        ? { from: linePx - NAME_PX, to: linePx }
        : { from: linePx, to: linePx + NAME_PX };
    }),
  };
}

/** Every limit up to a little above the hottest reading; when there is none so low, the lowest one. */
export function limitsInSight(limits: readonly FigureLimit[], hottestC: number): readonly FigureLimit[] {
  const sorted = [...limits].sort((a, b) => a.limitC - b.limitC);
  const near = sorted.filter(({ limitC }) => limitC <= hottestC * 1.25);
  return near.length > 0 ? near : sorted.slice(0, 1);
}

/** A limit close under another one carries its name below its line. */
function roomAbove(limitC: number, limits: readonly FigureLimit[], pxPerC: number): 'above' | 'below' {
  const crowded = limits.some(
    (other) => other.limitC > limitC && (other.limitC - limitC) * pxPerC < LABEL_PX,
  );
  return crowded ? 'below' : 'above';
}

/** The end of the panel where the metal was colder has room for names. */
function emptierEnd(
  channels: readonly TracedChannel[],
  { fromS, toS }: { readonly fromS: number; readonly toS: number },
): 'left' | 'right' {
  const third = (toS - fromS) / 3;
  const hottest = (from: number, to: number) => {
    let high = Number.NEGATIVE_INFINITY;
    for (const { history } of channels)
      history.timeS.forEach((t, i) => {
        if (t >= from && t <= to && history.tempC[i]! > high) high = history.tempC[i]!;
      });
    return high;
  };
  return hottest(toS - third, toS) < hottest(fromS, fromS + third) ? 'right' : 'left';
}
