import { type EvidenceRow, evidenceTable, frozenPredictions, type MetalFamily } from '../../kinetics';
import { clockOfScore } from './clockOfScore';
import { frozenScores, type MemberScore, memberScores } from './memberScores';
import { type ScoreSummary, scoreSummary } from './scoreSummary';

/** Whose answers are scored: what a verdict rests on, each family of it alone, and what was said before the fit. */
export const SCORED_MODELS = ['both families', 'curve alone', 'delayed alone', 'before the fit'] as const;
/** One of them. */
export type ScoredModel = (typeof SCORED_MODELS)[number];

/** One line of the scoreboard; `group` is what the rows have in common. */
export interface ScoreLine extends ScoreSummary {
  readonly model: ScoredModel;
  /** Median factor in time that would suit the rows; above 1 the model is too slow. `null`: none tells. */
  readonly timeFactor: number | null;
}

/** A row with its model, its score and, where it was asked, its factor in time. */
export interface BoardScore extends MemberScore {
  readonly model: ScoredModel;
  readonly timeFactor: number | null;
}

const FAMILY: { readonly [model in ScoredModel]?: MetalFamily } = {
  'curve alone': 'curve',
  'delayed alone': 'delayed',
};

/** Strength kept by aged metal, as a share of what it was: every such row against every model. */
export function boardScores(count = 400): readonly BoardScore[] {
  const rows = evidenceTable().filter(({ unit, known }) => unit === 'fraction' && known !== 'practice');
  return SCORED_MODELS.flatMap((model) => {
    const isFrozen = model === 'before the fit';
    const scores = isFrozen ? frozenScores(rows) : memberScores(count, FAMILY[model], rows);
    return scores.map((score) => ({
      ...score,
      model,
      timeFactor: isFrozen ? null : clockOfScore(score.row, FAMILY[model]),
    }));
  });
}

/** The scoreboard: scores added up by model and by whatever names their group. */
export function scoreboard(
  scores: readonly BoardScore[],
  groupOf: (row: EvidenceRow) => string,
): readonly ScoreLine[] {
  const groups = [...new Set(scores.map(({ row }) => groupOf(row)))];
  return groups.flatMap((group) =>
    SCORED_MODELS.flatMap((model) => {
      const own = scores.filter((score) => score.model === model && groupOf(score.row) === group);
      const factors = own.flatMap(({ timeFactor }) => timeFactor ?? []).sort((a, b) => a - b);
      return scoreSummary(own, () => group).map((summary) => ({
        ...summary,
        model,
        timeFactor: factors.length > 0 ? factors[factors.length >> 1]! : null,
      }));
    }),
  );
}

/** Whether the members were fitted to a row, or it was held back before the fit, or serves as a further check. */
export function sampleOf({ id, use }: EvidenceRow): string {
  if (use === 'fit') return 'fitted';
  return frozenPredictions().heldOut.includes(id) ? 'held out' : 'further checks';
}

/** Seconds, minutes and hours: the families part only below half an hour. */
export function rangeOf({ exposure }: EvidenceRow): string {
  const longestS = Math.max(...exposure.map((step) => ('timeS' in step ? step.timeS : 0)));
  if (longestS < 1800) return 'below half an hour';
  return longestS < 36_000 ? 'half an hour to 10 h' : '10 h and longer';
}

/** Wrought alloy by name, castings together. */
export const alloyOf = ({ alloys }: EvidenceRow): string =>
  alloys[0]!.includes('356') ? '356 and A356' : alloys[0]!;
