import type { AlloyCard } from '../../alloy';
import { ovenOptions, readHeats, toldExposures } from '../../decision';
import {
  type Exposure,
  parsePoints,
  pointsExposure,
  stickOf,
  type TemperatureSign,
  withSigns,
} from '../../exposure';
import { type OvenOptions, ovenAsks } from '../../heatflow';
import { bakeCertificate } from '../../heattreat';
import { TemperbookError } from '../../quantity';
import type { KnownHeat, SaidHeat } from './saidHeat';

/** What metal saw in a heat that nobody logged. */
export interface ToldExposures {
  readonly exposures: readonly Exposure[];
  /** What nobody said of it, as questions. */
  readonly asks: readonly string[];
}

/**
 * What metal of an alloy saw in one heat of a job: words, points off a paper chart, or what a certificate vouches for, with
 * its sticks and readings by hand. The same exposures as `judgeHeats` makes.
 * @param wallMm heaviest wall of the part, where the heat says no other; `lot` is the one whose certificate it must be.
 * @throws TemperbookError for a heat that says none of the three or two, for keys that belong to another form, for a
 * certificate that states no heat, and as `parseHeats`, `pointsExposure`, `bakeCertificate`, `withSigns`, `ovenExposure`.
 */
export function heatOfJob(
  said: SaidHeat,
  card: AlloyCard,
  { wallMm, lot }: { readonly wallMm?: number; readonly lot?: string } = {},
): ToldExposures {
  const known: KnownHeat = typeof said === 'string' ? { heat: said } : said;
  const { heat, points, certificate, toK, between, sticks = [], spots = [], ...oven } = known;
  const given = Object.entries({ heat, points, certificate }).flatMap(([key, value]) =>
    value === undefined ? [] : [key],
  );
  if (given.length !== 1)
    throw new TemperbookError('A heat is one thing', {
      found: given.join(' and ') || 'none of them',
      expected: 'heat (in words), points (off a paper chart) or certificate',
    });
  if (points === undefined && (toK !== undefined || between !== undefined))
    throw new TemperbookError('Keys of points stand at another heat', {
      found: 'toK or between without points',
      expected: 'them beside points',
    });
  const seen: readonly TemperatureSign[] = [...sticks.map(stickOf), ...spots];
  if (points !== undefined)
    return {
      exposures: [withSigns(pointsExposure({ ...parsePoints(points), ...pointsKnown(known) }), seen)],
      asks: [],
    };
  const stated = certificate === undefined ? undefined : certified(certificate, lot);
  const made: OvenOptions = ovenOptions(
    { ...oven, ...(stated?.oven === undefined ? {} : { oven: stated.oven }) },
    { wallMm },
  );
  const heats = readHeats({ heat: stated?.heat ?? heat!, ...(seen.length > 0 ? { seen } : {}) });
  const exposures = heats.flatMap((one) => toldExposures(one, card, made));
  return {
    exposures: stated
      ? exposures.map((one) => ({ ...one, because: [...one.because, ...stated.because] }))
      : exposures,
    // The certificate's own questions ask for the oven.
    asks: stated ? [...stated.asks, ...ovenAsks({ ...made, oven: made.oven ?? 'asked' })] : ovenAsks(made),
  };
}

function pointsKnown({ toK, between, oven, wallMm, fan }: KnownHeat) {
  if (toK === undefined || between === undefined)
    throw new TemperbookError('Points need two things more', {
      found: 'points alone',
      expected:
        'toK, how far a point may be off (half a division of the chart, such as "±5F"), and between: "the curve" where every high and low was typed, "not known" for readings in between',
    });
  if (oven !== undefined || wallMm !== undefined || fan !== undefined)
    throw new TemperbookError('Points are of the metal, so no oven stands beside them', {
      found: 'oven, wallMm or fan',
      expected: 'points, toK and between; of a chart of the air, the heat in words',
    });
  return { toK, between };
}

function certified(certificate: NonNullable<KnownHeat['certificate']>, lot: string | undefined) {
  if (lot === undefined)
    throw new TemperbookError('Whose certificate is it?', {
      found: 'a certificate in a job that names no lot',
      expected: 'the key lot.name: a certificate says nothing of another lot',
    });
  const { heat, ...answer } = bakeCertificate(certificate, lot);
  if (heat !== undefined) return { heat, ...answer };
  throw new TemperbookError('This certificate states no heat', {
    found: answer.because.join(' '),
    expected: 'a temperature and a time',
    remedy: answer.asks.join(' '),
  });
}
