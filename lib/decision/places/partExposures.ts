import { type AlloyCard, loadAlloy } from '../../alloy';
import type { Exposure } from '../../exposure';
import type { OpenReading } from '../../log';
import { TemperbookError } from '../../quantity';
import type { PlacesToJudge, PlaceToJudge } from '../judgeChannel';
import type { JudgeOptions } from '../judgeOptions';
import type { NotJudged } from '../verdict';

/** One place of a part: what its metal is and what it saw. */
export interface PlaceExposure {
  readonly name: string;
  readonly alloy: AlloyCard | string;
  readonly temper: string;
  readonly measuredYieldMPa?: number;
  readonly exposure: Exposure;
  /** Heats before this one, in their order. */
  readonly earlier: readonly Exposure[];
  /** Start and end of the log, s. */
  readonly spanS: readonly [number, number];
  /** The line as read and what each doubt contributes, where they were worked out before with the metals of today. */
  readonly known?: PlaceToJudge['known'];
}

/** What every place of a part saw, kept from a log that was judged before. */
export interface PartExposures {
  readonly places: readonly PlaceExposure[];
  readonly notJudged: readonly NotJudged[];
  readonly openReadings: readonly OpenReading[];
}

/** The places of a part ready to judge. @throws TemperbookError for options of channels: a place says it all itself. */
export function placesGiven(
  { places, notJudged }: PartExposures,
  { limitC, byChannel }: Pick<JudgeOptions, 'limitC' | 'byChannel'>,
  allowanceFraction: number,
): PlacesToJudge {
  if (byChannel !== undefined)
    throw new TemperbookError('Exposures that were kept say of each place what it is', {
      found: `byChannel with ${Object.keys(byChannel).join(', ') || 'nothing'}`,
      expected: 'no byChannel',
    });
  return {
    places: places.map(({ alloy, ...place }) => ({
      ...place,
      card: loadAlloy(alloy),
      history: place.exposure.history,
      allowanceFraction,
      limitC,
    })),
    notJudged,
  };
}
