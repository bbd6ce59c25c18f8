import { probeExposure } from '../exposure';
import { formatChance } from '../quantity';
import { type PlaceToJudge, strengthOf } from './judgeChannel';
import type { ChannelVerdict } from './verdict';

/** Draws for what another fixing would say: it is a hint and no verdict. */
const HINT_DRAWS = 200;
/** A chance that moves less than this is not worth a sentence. */
const NOTICEABLE = 0.02;

/** Whether nobody said how the probe of a channel is fixed. */
export function isFixingUnknown({ record }: PlaceToJudge): boolean {
  return record !== undefined && (record.probe.attachment ?? 'not stated') === 'not stated';
}

/** An uncertain verdict that says what knowing the fixing would change, where nobody said it. */
export function withFixingAsked(verdict: ChannelVerdict, channel: PlaceToJudge): ChannelVerdict {
  const { record } = channel;
  if (!record || !isFixingUnknown(channel) || verdict.chanceKept === null) return verdict;
  const tight = probeExposure({ ...record, probe: { ...record.probe, attachment: 'peened hole' } });
  const { chanceOfRecorded } = strengthOf({ ...channel, exposure: tight }, HINT_DRAWS, { endOnly: true });
  if (chanceOfRecorded - verdict.chanceKept < NOTICEABLE) return verdict;
  return {
    ...verdict,
    sentence: `${verdict.sentence} Nobody said how this probe is fixed, so it is taken for the loosest: say it. Were it peened into a hole, the chance would be ${formatChance(chanceOfRecorded)}.`,
  };
}
