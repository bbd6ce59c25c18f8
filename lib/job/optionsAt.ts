import { parseMetal } from '../alloy';
import { type ChannelVerdict, type JudgeOptions, worstChannel } from '../decision';
import { nearestName, TemperbookError } from '../quantity';
import type { Review } from './reviewJob';

/** Options for one place by itself: no other probes, no readings beside them. */
export type OptionsAt = Omit<JudgeOptions, 'byChannel' | 'readings' | 'part' | 'onProgress'>;

/**
 * The verdict on one probe of a review; without a name the worst.
 * @throws TemperbookError for a probe that was not judged.
 */
export function verdictAt({ verdict: { channels } }: Review, probe?: string): ChannelVerdict {
  const found = probe === undefined ? worstChannel(channels) : channels.find(({ name }) => name === probe);
  if (found) return found;
  const names = channels.map(({ name }) => name);
  const near = nearestName(probe ?? '', names);
  throw new TemperbookError('No such probe was judged', {
    found: `"${probe}"`,
    expected: `one of ${names.map((name) => `"${name}"`).join(', ')}`,
    ...(near ? { remedy: `Did you mean "${near}"?` } : {}),
  });
}

/**
 * The options with which `compareScenarios` and `considerRecovery` ask about the place of one probe as the review did.
 * @throws TemperbookError for a probe that was not judged.
 */
export function optionsAt(review: Review, probe: string): OptionsAt {
  const { byChannel, readings: _, part: __, onProgress: ___, ...all } = review.options;
  return { ...all, ...byChannel?.[verdictAt(review, probe).name] };
}

/**
 * Options of a scenario on another metal, in one word: nothing measured on this one holds for it.
 * @throws TemperbookError as `parseMetal`.
 */
export function otherMetal(
  words: string,
): Pick<Partial<OptionsAt>, 'alloy' | 'temper' | 'measuredYieldMPa' | 'measuredHardnessHV' | 'lots'> {
  const { alloy, temper } = parseMetal(words);
  return { alloy, temper, measuredYieldMPa: undefined, measuredHardnessHV: undefined, lots: undefined };
}
