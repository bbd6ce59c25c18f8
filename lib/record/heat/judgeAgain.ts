import { listAlloys } from '../../alloy';
import { judge, type PlaceExposure, type Verdict, YOUR_LIMIT } from '../../decision';
import { withFixing } from '../../exposure';
import type { ThermalHistory } from '../../history';
import { membersHash } from '../../kinetics';
import { nearestName, TemperbookError } from '../../quantity';
import type { Attachment } from '../../thermocouple';
import type { Reading } from '../../verify';
import type { DecisionRecord, RecordedChannelVerdict } from '../decisionRecord';
import { partOfSheet } from '../partOfSheet';
import { changedSince } from '../shelf/changedSince';
import { recordMadeWith } from '../shelf/shelfEntry';
import { restoredExposure } from './recordedExposure';
import { restoredLot } from './recordedLot';

/** What a new judgement counts that the record's did not. */
export interface JudgedAnew {
  readonly readings?: readonly Reading[];
  readonly attachments?: Readonly<Record<string, Attachment>>;
}

/** Early records say that they count a lot, in the words of `lotsSentence` then and now, and do not keep it. */
const COUNTS_A_LOT = /^Weighed by (?:the coupons|what coupons or chart say) of/;

/** Why the kit has not all that a record was judged by; undefined where it has. */
export function whyNotAgain({ verdict: { channels, readings, lots } }: DecisionRecord): string | undefined {
  const own = channels.find(({ alloy }) => !listAlloys().includes(alloy));
  if (own) return `the card of ${own.alloy} is the shop's own, which a record does not keep`;
  if (lots === undefined && readings?.because.some((line) => COUNTS_A_LOT.test(line)))
    return 'it counts the coupons of a lot, which a record so early did not keep';
  const old = lots?.find((lot) => lot.membersHash !== membersHash());
  return old && `its lot "${old.name}" was weighed with the plausible metals of another version`;
}

/** What the probes of a record read, as far as it keeps it. */
export const tracesOf = ({
  verdict,
}: DecisionRecord): { readonly name: string; readonly history: ThermalHistory }[] =>
  verdict.channels.map(({ name, exposure }) => ({ name, history: restoredExposure(exposure).history }));

/**
 * Judges what the metal saw again, from the exposures that the record keeps: with further bench readings, or with probes
 * that were fixed otherwise. The lots and the readings it counted already count on.
 * @throws TemperbookError for what it was judged by and does not keep (`whyNotAgain`), a probe it does not have, an unknown
 * fixing, and as `judge`.
 */
export function judgeAgain(record: DecisionRecord, { readings = [], attachments = {} }: JudgedAnew): Verdict {
  const { verdict } = record;
  const { alloy, temper, allowanceFraction, channels, notJudged, openReadings, lots = [] } = verdict;
  const why = whyNotAgain(record);
  if (why)
    throw new TemperbookError('This record cannot be judged again', {
      found: why,
      remedy: 'Review its job again: that makes the next edition',
    });
  checkNames(Object.keys(attachments), channels);
  const isAsItWas = changedSince({ madeWith: recordMadeWith(record), places: channels }).length === 0;
  const places = channels.map((channel) => placeOf(channel, attachments[channel.name], isAsItWas));
  const limit = channels.flatMap(({ limits }) => limits).find(({ name }) => name === YOUR_LIMIT);
  const counted = [...(verdict.readings?.given ?? []), ...readings];
  const again = judge(
    { places, notJudged, openReadings },
    {
      alloy,
      temper,
      allowanceFraction,
      part: partOfSheet(record.job),
      ...(limit ? { limitC: limit.limitC } : {}),
      ...(counted.length > 0 ? { readings: counted } : {}),
      ...(lots.length > 0 ? { lots: lots.map(restoredLot) } : {}),
    },
  );
  const known = new Set(again.assumptions.map(({ name }) => name));
  return {
    ...again,
    fixingNotStated: verdict.fixingNotStated.filter((name) => attachments[name] === undefined),
    assumptions: [
      ...again.assumptions,
      ...verdict.assumptions.filter(({ name }) => !known.has(name)),
      ...Object.entries(attachments).map(([name, attachment]) => ({
        name: `Fixing of ${name}, corrected`,
        value: typeof attachment === 'string' ? attachment : 'as given by the shop',
        source: 'as said after the record was written',
        known: 'seen' as const,
      })),
    ],
  };
}

/** A place as the record keeps it. Where the kit is what it was, whatever does not depend on readings stands there already. */
function placeOf(
  {
    name,
    alloy,
    temper,
    measuredYieldMPa,
    exposure,
    earlier,
    coveredS,
    uncoveredS,
    ...told
  }: RecordedChannelVerdict,
  attachment: Attachment | undefined,
  isAsItWas: boolean,
): PlaceExposure {
  const seen = restoredExposure(exposure);
  const startS = seen.history.timeS[0]!;
  return {
    name,
    alloy,
    temper,
    ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }),
    exposure: attachment === undefined ? seen : withFixing(seen, attachment),
    earlier: earlier.map(restoredExposure),
    spanS: [startS, startS + coveredS + uncoveredS],
    ...(attachment === undefined && isAsItWas
      ? { known: { asReadFraction: told.asReadFraction, contributions: told.doubts } }
      : {}),
  };
}

function checkNames(names: readonly string[], channels: readonly RecordedChannelVerdict[]): void {
  const known = channels.map(({ name }) => name);
  for (const name of names) {
    if (known.includes(name)) continue;
    const near = nearestName(name, known);
    throw new TemperbookError('The record has no such probe', {
      found: `"${name}"`,
      expected: `one of ${known.map((one) => `"${one}"`).join(', ')}`,
      ...(near ? { remedy: `Did you mean "${near}"?` } : {}),
    });
  }
}
