import { adaptiveMetropolis, seededRandom } from '../../../statistics';
import { type EvidenceRow, evidenceHash, evidenceTable } from '../../evidence';
import { DRAW_COLUMNS, type MemberDraw, PRIOR_COLUMNS, SCORE_COLUMNS } from '../memberDraw';
import type { MemberTable } from '../memberTable';
import type { MetalFamily } from '../plausibleMetal';
import { drawOrder } from './drawOrder';
import { HANDBOOK_LOT, type Prior, UNSEEN_PRIORS } from './fitPriors';
import { metalPosterior } from './metalPosterior';
import { scoreSequence } from './scoreSequence';
import { TELLING_QUESTIONS } from './tellingQuestions';
import { ultimateDraws } from './ultimateDraws';

/** What a fit of members may be told: its evidence, its seed, how far it has come. */
export interface FitOptions {
  readonly evidence?: readonly EvidenceRow[];
  readonly seed?: number;
  /** Draws of each family, a power of 2. */
  readonly draws?: number;
  /** Steps of the chain between two draws, and before the first. */
  readonly every?: number;
  readonly warmUp?: number;
  readonly onProgress?: (family: MetalFamily, done: number, of: number) => void;
}

/** The seed of the committed members. */
export const FIT_SEED = 20_250_611;

/**
 * Draws the plausible metals from their posterior given the evidence: one chain for each family, their draws in
 * turns, so that any first n hold both alike and are spread as evenly as all.
 */
export function fitMetals(options: FitOptions = {}): MemberTable {
  const { evidence = evidenceTable(), seed = FIT_SEED, draws = 2048 } = options;
  const curve = drawFamily('curve', evidence, { ...options, seed });
  const delayed = drawFamily('delayed', evidence, { ...options, seed: seed + 1 });
  const inTurns = Array.from({ length: 2 * draws }, (_, i) => (i % 2 ? delayed : curve)[i >> 1]!);
  return {
    title:
      'Plausible metals of the Al-Mg-Si family: draws of the posterior given data/published/evidence.json',
    evidenceHash: evidenceHash(evidence),
    seed,
    count: inTurns.length,
    columns: Object.fromEntries(
      DRAW_COLUMNS.map((column) => [column, inTurns.map((draw) => rounded(draw[column]))]),
    ),
  };
}

/** Four digits: the last one moves a yield by less than 1e-3. */
const rounded = (x: number): number => Number(x.toPrecision(4));

function drawFamily(
  family: MetalFamily,
  evidence: readonly EvidenceRow[],
  { seed = FIT_SEED, draws = 2048, every = 10, warmUp = 20_000, onProgress }: FitOptions,
): MemberDraw[] {
  const posterior = metalPosterior(family, evidence);
  const random = seededRandom(seed);
  const chain = adaptiveMetropolis(posterior.logDensity, {
    start: posterior.start,
    scale: posterior.scale,
    warmUp,
    draws,
    every,
    random,
    onDraw: (done) => onProgress?.(family, done, draws),
  });
  const scores = scoreSequence(draws, SCORE_COLUMNS.length);
  const ultimate = ultimateDraws(evidence);
  const sample = chain.draws.map((x, i): MemberDraw => {
    const seen = {
      ...posterior.drawOf(x),
      ...Object.fromEntries(
        PRIOR_COLUMNS.map((column) => [column, fromPrior(UNSEEN_PRIORS[column], random)]),
      ),
      ...Object.fromEntries(SCORE_COLUMNS.map((column, k) => [column, scores[i]![k]!])),
    } as MemberDraw;
    const [ultimateA, ultimateB, ultimateC] = ultimate(seen, posterior.lotClock(x, HANDBOOK_LOT), random);
    return { ...seen, ultimateA, ultimateB, ultimateC };
  });
  return drawOrder(
    sample.map((draw) => TELLING_QUESTIONS.map(({ ask }) => ask(draw))),
    random,
  ).map((i) => sample[i]!);
}

function fromPrior({ mean, sd, low, high }: Prior, random: { normal(): number }): number {
  for (;;) {
    const x = mean + sd * random.normal();
    if ((low === undefined || x >= low) && (high === undefined || x <= high)) return x;
  }
}
