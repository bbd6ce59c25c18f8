import { asExposure, weightsOfSigns } from '../../exposure';
import { effectiveNumber } from '../../statistics';
import {
  CLOSE_DRAWS,
  isCloseToRule,
  jointChance,
  type LotWeights,
  lotsSentence,
  lotsSpeak,
  MOST_DRAWS,
  MUTE_BELOW,
  product,
  ROUTINE_DRAWS,
  type StrengthAfter,
  weightsOfLots,
} from '../../strength';
import { type Reading, type ReadingWeights, readingWeights } from '../../verify';
import { type PlaceToJudge, strengthOf } from '../judgeChannel';

interface Weighed {
  readonly strengths: readonly StrengthAfter[];
  readonly readings: Pick<ReadingWeights, 'contradicting' | 'because'>;
  /** Draws that the readings leave, as equally likely ones. */
  readonly effectiveDraws: number;
}

/** What is known of part and metal besides the record. */
interface Told {
  readonly readings: readonly Reading[];
  readonly lots: readonly LotWeights[];
}

/** How the draws are run. */
interface HowToRun {
  readonly tell?: (share: number) => void;
  /** The heat goes on: only its end so far is asked for, and no more draws than leave enough that speak. */
  readonly isRunning?: boolean;
}

/** With fewer effective draws than this more are asked. */
const FEW_EFFECTIVE = 200;

/**
 * Strength of every place of a part in the light of its lots, of what was seen of its heats and of its readings, with as
 * many draws as tell on which side of the rule every chance lies.
 */
export function weighedPart(places: readonly PlaceToJudge[], given: Told, how: HowToRun): Weighed {
  const ask = (count: number, goOn?: Weighed): Weighed =>
    withDraws(places, given, count, how, goOn?.strengths);
  let answer = ask(ROUTINE_DRAWS);
  for (const count of [CLOSE_DRAWS, MOST_DRAWS]) {
    const { strengths, effectiveDraws } = answer;
    // All together decide only among places that are kept one by one: any other has a word of its own.
    const kept = strengths.filter(({ word }) => word === 'kept');
    const chances = [
      ...strengths.map(({ chanceOfRecorded }) => chanceOfRecorded),
      ...(kept.length > 1 ? [jointChance(kept, 1 - places[0]!.allowanceFraction)] : []),
    ];
    const isClose = chances.some((chance) => isCloseToRule(chance, effectiveDraws));
    if (effectiveDraws >= FEW_EFFECTIVE && (how.isRunning || !isClose)) break;
    answer = ask(count, answer);
  }
  return answer;
}

function withDraws(
  places: readonly PlaceToJudge[],
  { readings, lots }: Told,
  count: number,
  { tell, isRunning: endOnly }: HowToRun,
  goOn: readonly StrengthAfter[] = [],
): Weighed {
  const run = places.map((one, k) =>
    strengthOf(one, count, {
      endOnly,
      goOn: goOn[k],
      onDraw: (share) => tell?.((k + share) / places.length),
    }),
  );
  const signs = places.map(({ exposure, earlier }) =>
    weightsOfSigns([...earlier.map(asExposure), exposure], count),
  );
  const seen = signs.reduce(product, undefined);
  // Each place counts its own signs itself (`strengthAfter`); a draw is one truth for all places, so it counts the others' too.
  const weigh = (weights: Float64Array | undefined): readonly StrengthAfter[] =>
    places.map((one, k) => {
      const others = signs.filter((_, other) => other !== k).reduce(product, undefined);
      return strengthOf(one, count, { endOnly, weights: product(weights, others), goOn: run[k] });
    });
  const byLot = weightsOfLots(lots, count);
  const because = byLot ? [lotsSentence(lots, byLot)] : [];
  const known = lotsSpeak(lots) ? byLot : undefined;
  const prior = product(known, seen);
  const before = prior ? weigh(known) : run;
  const unread = { strengths: before, effectiveDraws: prior ? effectiveNumber(prior) : count };
  if (readings.length === 0) return { ...unread, readings: { contradicting: [], because } };
  const { weights: read, ...told } = readingWeights(
    readings,
    places.map(({ name, card }, k) => ({ name, card, draws: run[k]!.draws, weights: prior })),
  );
  const effectiveDraws = effectiveNumber(product(read, prior)!);
  if (effectiveDraws < MUTE_BELOW && count === MOST_DRAWS)
    return {
      ...unread,
      effectiveDraws,
      readings: {
        because: [...because, ...told.because],
        contradicting: [
          ...told.contradicting,
          `Hardly any draw of log and metal fits the readings (${Math.round(effectiveDraws)} of ${count}): they cannot weigh the verdict, which is without them. One of log and readings is likely wrong: read again, on cold metal of this part too, and look at the probe.`,
        ],
      },
    };
  return {
    strengths: weigh(product(read, known)),
    readings: { ...told, because: [...because, ...told.because] },
    effectiveDraws,
  };
}
