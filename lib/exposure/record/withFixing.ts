import { TemperbookError } from '../../quantity';
import type { Attachment } from '../../thermocouple';
import type { Exposure } from '../exposure';
import { peak } from '../peak';
import { fixingDoubt, fixingSentence, isFixingSentence } from './fixingDoubt';

/**
 * A probe's exposure as it is with another fixing: the air round the part stands in the doubt it replaces.
 * @throws TemperbookError for an exposure that no probe made, and for an unknown fixing.
 */
export function withFixing(exposure: Exposure, attachment: Attachment): Exposure {
  const { history, doubts, because } = exposure;
  const was = doubts.find(({ kind }) => kind === 'fixing');
  if (!was || 'runsK' in was)
    throw new TemperbookError('This exposure is of no probe, so it has no fixing', {
      found: doubts.map(({ kind }) => kind).join(', ') || 'no doubt at all',
      expected: 'an exposure from a probe of a log',
    });
  const { tempC: topC, timeS } = peak(history);
  const ambientC = topC - was.shiftK[history.timeS.indexOf(timeS)]!;
  const is = fixingDoubt(history, attachment, ambientC);
  return {
    ...exposure,
    doubts: doubts.map((doubt) => (doubt === was ? is : doubt)),
    because: [
      ...because.filter((sentence) => !isFixingSentence(sentence)),
      fixingSentence(attachment, topC, ambientC),
    ],
  };
}
