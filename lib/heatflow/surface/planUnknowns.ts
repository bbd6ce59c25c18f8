import { EVEN_SPREAD_DIMENSIONS, evenSpread, normalQuantile, seededRandom } from '../../statistics';
import { ARC_EFFICIENCY } from '../arcEfficiency';
import { nuisanceKnobs, type PlanKnob, type PlanKnobs } from '../calibration/planKnobs';
import type { PlatePlan } from '../plate';

/** Nobody has measured the net power of a plan that says watts: it is as sure as that of hand TIG on AC. */
const WATTS_AS = 'TIG AC';
/** Still air with its draughts, and a clamp's contact, are known to about these factors; judgement. */
const FILM: readonly [number, number] = [0.6, 1.6];
const CONTACT: readonly [number, number] = [0.4, 2.5];
/** Standard errors between the median and the 95 of 100. */
const TO_95 = 1.645;
/** Draws go no further out than this many standard errors. */
const FARTHEST = 2.5;

/**
 * What a plan does not know before the arc is struck, each a factor on what it says: how much of the arc's power enters
 * the part, conductivity and heat capacity within the bands of the alloy cards (all metals of the plan together, the
 * wider band of them), travel speed of a hand-held torch, the air, the clamps and chills.
 */
export function planUnknowns(plan: PlatePlan): PlanKnob[] {
  const own = nuisanceKnobs(plan);
  const together = (quantity: string): PlanKnob[] => {
    const all = own.filter(({ name }) => name === quantity || name.startsWith(`${quantity} of `));
    if (all.length === 0) return [];
    const [low, high] = [Math.min(...all.map((k) => k.low)), Math.max(...all.map((k) => k.high))];
    return [{ name: quantity, label: quantity, nominal: (low + high) / 2, low, high }];
  };
  const loss = (name: string, label: string, [low, high]: readonly [number, number]): PlanKnob => ({
    name,
    label,
    nominal: 1,
    low,
    high,
  });
  return [
    arcPower(plan),
    ...together('conductivity'),
    ...together('heat capacity'),
    ...own.filter(({ name }) => name === 'travel speed'),
    loss('film', 'loss to the air', FILM),
    ...((plan.contacts ?? []).length > 0 ? [loss('contact', 'contact of clamps and chills', CONTACT)] : []),
  ];
}

function arcPower({ passes }: PlatePlan): PlanKnob {
  const bands = passes.map(({ process, efficiency }) => {
    const known = ARC_EFFICIENCY[efficiency === undefined && process ? process : WATTS_AS];
    return [known.low! / known.value, known.high! / known.value] as const;
  });
  return {
    name: 'power',
    label: 'arc efficiency',
    nominal: 1,
    low: Math.min(...bands.map(([low]) => low)),
    high: Math.max(...bands.map(([, high]) => high)),
  };
}

/** The factor that lies z standard errors from the middle: the logarithm is normal on either side of it. */
export function knobAt({ nominal, low, high }: PlanKnob, z: number): number {
  const end = z < 0 ? low : high;
  return nominal * (end / nominal) ** (Math.min(FARTHEST, Math.abs(z)) / TO_95);
}

/** Every unknown has a stream of its own, so that two plans that do not know the same draw it alike. */
const STREAMS = ['power', 'conductivity', 'heat capacity', 'travel speed', 'film', 'contact'];

function streamOf(name: string): number {
  const known = STREAMS.indexOf(name);
  if (known >= 0) return known;
  let hash = 0;
  for (let i = 0; i < name.length; i++) hash = (Math.imul(hash, 31) + name.charCodeAt(i)) >>> 0;
  return STREAMS.length + (hash % (EVEN_SPREAD_DIMENSIONS - STREAMS.length));
}

/**
 * Plausible values of unknowns that know nothing of each other, in low-discrepancy order: the same seed gives the same
 * list whatever else a plan does not know, and a longer one begins with the shorter.
 */
export function drawKnobs(unknowns: readonly PlanKnob[], count: number, seed = 1): PlanKnobs[] {
  const streams = unknowns.map(({ name }) => {
    const stream = streamOf(name);
    return { stream, shift: seededRandom(1000 * seed + stream).uniform() };
  });
  return Array.from({ length: count }, (_, i) =>
    Object.fromEntries(
      unknowns.map((knob, k) => {
        const { stream, shift } = streams[k]!;
        const place = (evenSpread(i, stream) + shift) % 1;
        return [knob.name, knobAt(knob, normalQuantile(Math.min(1 - 1e-9, Math.max(1e-9, place))))];
      }),
    ),
  );
}
