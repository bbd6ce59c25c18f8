import { thermalHistory } from '../../history';
import { formatDuration, formatTempSpan, kelvinsOf, requireNumber, TemperbookError } from '../../quantity';
import type { BlindTime, Exposure } from '../exposure';

/** Points of a temperature curve that somebody wrote down. */
export interface WrittenPoints {
  readonly timeS: readonly number[];
  readonly tempC: readonly number[];
  /** How far a point may be off, ±K or '±5F': half a division of the chart, what the thermometer's sheet promises. */
  readonly toK: number | string;
  /**
   * What stands between the points: "the curve" where every high and low of a paper chart was typed, so that straight lines
   * join them; "not known" for readings between passes, where the metal may have been anything.
   */
  readonly between: 'the curve' | 'not known';
}

/**
 * What metal saw, from points typed off a paper chart or written down by hand. One error of the reading goes with all points
 * of a sheet (scale, thermometer, eye), any as likely as another. Where nothing is known between the points, the time is
 * blind: what the points show may still be lost, and nothing is cleared.
 * @throws TemperbookError for times that do not go forward, fewer than two points, or a tolerance that nobody gave.
 */
export function pointsExposure({ timeS, tempC, toK: off, between }: WrittenPoints): Exposure {
  if (timeS.length < 2 || timeS.length !== tempC.length)
    throw new TemperbookError('These points make no curve', {
      found: `${timeS.length} times and ${tempC.length} temperatures`,
      expected: 'at least two points, each with its time and its temperature',
    });
  const toK = requireNumber(
    kelvinsOf(off, 'How far a written point may be off'),
    'How far a written point may be off, in K',
    { low: 0, high: 100 },
  );
  const history = thermalHistory(timeS, tempC);
  const spanS = history.timeS[history.timeS.length - 1]! - history.timeS[0]!;
  const blind: BlindTime[] =
    between === 'the curve'
      ? []
      : [
          {
            fromS: history.timeS[0]!,
            toS: history.timeS[history.timeS.length - 1]!,
            because: `Between ${timeS.length} readings written down over ${formatDuration(spanS)} nobody knows how hot the metal was: sticks that did not melt, or a reading at the bench, can tell.`,
          },
        ];
  return {
    history,
    doubts: [
      {
        kind: 'written',
        of: 'points that were written down',
        spread: { shape: 'even', low: -1, high: 1 },
        shiftK: new Float64Array(history.timeS.length).fill(toK),
      },
    ],
    blind,
    because: [
      `${timeS.length} points written down by hand, each good to ±${formatTempSpan(toK)}; ${between === 'the curve' ? 'every high and low is among them' : 'nothing is known between them'}.`,
    ],
  };
}
