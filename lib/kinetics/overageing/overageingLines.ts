import { type AlloyCard, type FoundTemper, findTemper, type OverageingCurve } from '../../alloy';
import { TemperbookError } from '../../quantity';
import { type OverageingShape, yieldKept } from './overageingCurve';
import type { OverageingDose } from './overageingDose';

/**
 * How many times faster the alloy over-ages than the published precipitate model says, found on the shop's own
 * coupons; replaces the time factor of the card.
 */
export interface TimeFactor {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Yield kept after a dose: nominal and the band of activation energy, clock and curve. */
export type KeptLines = (dose: OverageingDose) => { nominal: number; low: number; high: number };

/** A temper of the card together with its over-ageing curve; throws where the card has none. */
export function temperCurve(card: AlloyCard, temper: string): FoundTemper & { curve: OverageingCurve } {
  const found = findTemper(card, temper);
  const curve = card.overageing.curves[found.name];
  if (curve) return { ...found, curve };
  throw new TemperbookError(`${card.designation} has no over-ageing curve for this temper`, {
    found: found.name,
    expected: `one of ${Object.keys(card.overageing.curves).join(', ')}`,
    remedy: 'Heat hardens a soft temper instead: use the ageing curve or the precipitate model',
  });
}

/**
 * The three lines of a temper.
 *
 * Clock: the doubt about how fast this alloy's clock runs (the band of `softenTimeS`; a shop's own time factor
 * replaces it) and the spread between the three activation energies are independent, so they add as squares in
 * the logarithm of time.
 *
 * Curve: the low line has the least gain and the lowest floor of the card, the high line the most. A fast clock
 * softens sooner but also hardens an under-aged temper sooner, so the high line looks at both ends of the clock.
 *
 * Measured start: a yield off the typical one is either a stronger or weaker casting, whose hardening scales
 * (nominal), or one aged further or less, which sits elsewhere on the same curve. The band takes in both.
 */
export function keptLines(
  card: AlloyCard,
  temper: string,
  startYieldMPa: number,
  measured?: TimeFactor,
): KeptLines {
  const { curve, entry } = temperCurve(card, temper);
  const { floorYieldMPa: floor, gainFraction: gain, softenTimeS: soften, startDoseS: start } = curve;
  const rate = measured ? measured.value / card.overageing.timeFactor.value : 1;
  const fast = Math.log(measured ? measured.high / measured.value : soften.value / soften.low);
  const slow = Math.log(measured ? measured.value / measured.low : soften.high / soften.value);

  const shape = (g: number): OverageingShape => ({
    gain: g,
    riseS: curve.riseTimeS.value,
    softenS: soften.value,
  });
  const nominal = shape(gain.value);
  const moved =
    start.value === 0 ? movedAlong(nominal, entry.yieldMPa.value, startYieldMPa, floor.value) : nominal;
  const line = (of: OverageingShape, floorMPa: number, startClock: number): ((doseS: number) => number) =>
    yieldKept(of, Math.min(floorMPa / startYieldMPa, 0.95), rate * startClock * start.value);
  const middleLine = line(nominal, floor.value, 1);
  const lowLine = line(shape(gain.low), floor.low, Math.exp(fast));
  const lowMovedLine = line(moved, floor.low, Math.exp(fast));
  const highLine = line(shape(gain.high), floor.high, Math.exp(-slow));
  const highMovedLine = line(moved, floor.high, Math.exp(-slow));

  return ({ nominal: dose, lowEnergy, highEnergy }) => {
    if (dose === 0) return { nominal: 1, low: 1, high: 1 };
    const most = Math.log(Math.max(dose, lowEnergy, highEnergy) / dose);
    const least = Math.log(dose / Math.min(dose, lowEnergy, highEnergy));
    const hurried = rate * dose * Math.exp(Math.sqrt(fast * fast + most * most));
    const delayed = rate * dose * Math.exp(-Math.sqrt(slow * slow + least * least));
    const middle = middleLine(rate * dose);
    return {
      nominal: middle,
      low: Math.min(middle, lowLine(hurried), lowMovedLine(hurried)),
      high: Math.max(
        middle,
        highLine(delayed),
        highMovedLine(delayed),
        highLine(hurried),
        highMovedLine(hurried),
      ),
    };
  };
}

/** The shape seen from another yield on the same curve: same hardening to come in MPa, same late strength. */
function movedAlong(
  typical: OverageingShape,
  typicalMPa: number,
  startMPa: number,
  floorMPa: number,
): OverageingShape {
  const gain = Math.max(0, ((1 + typical.gain) * (typicalMPa - floorMPa)) / (startMPa - floorMPa) - 1);
  return { ...typical, gain, softenS: typical.softenS * ((1 + gain) / (1 + typical.gain)) ** 3 };
}
