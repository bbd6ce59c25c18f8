import type { Doubt, Exposure, Heat } from '../../exposure';
import { type ThermalHistory, tempAt, thermalHistory } from '../../history';
import {
  celsiusToKelvin,
  formatDuration,
  formatTemp,
  formatTempSpan,
  GAS_CONSTANT,
  TemperbookError,
} from '../../quantity';
import { followAir, followerAt, type OvenPart, timeConstantS } from './ovenPart';
import { type Oven, ovenOf } from './ovens';

/** What else is known of a heat in an oven. */
export interface OvenOptions {
  /** The oven, by name or survey (`ovenOf`); not said, the loosest. */
  readonly oven?: string;
  /** The heaviest wall, mm. Not said, the metal is taken to follow its air at once: nothing is hotter for longer. */
  readonly wallMm?: number;
  /** Whether a fan moves the air; not said, both. */
  readonly fan?: boolean;
}

/** Air of a shop, °C. */
const SHOP_C = 20;
/** So many ways, from slowest to fastest, in which a part may follow its air. */
const WAYS = 8;
/** A clock "at metal temperature" starts so far below the set point, K: the tolerance of most schedules. */
const AT_TEMPERATURE_K = 5;
/** Below this nothing happens in days, °C. */
const COLD_C = 100;
const POINTS = 24;
/** Upper end of the activation energies of softening, J/mol. */
const ACTIVATION_J_PER_MOL = 230_000;

/**
 * What metal saw in an oven, from its set point and time: the part follows the air as a lumped body, its time counted from
 * the door or from when it was hot, and cools in the shop. Left open: the dial (the same for all heats of one question),
 * the swing of the controller as far as the metal follows it, and how fast the part follows.
 *
 * A swing of ±A about T, A of the metal, ages like the steady temperature above T by RT²/Q · ln I₀(AQ/RT²), the mean of the
 * Arrhenius rate over a sine; A = A_air/√(1 + (2πτ/P)²).
 * @throws TemperbookError as `ovenOf`, and for a time counted at metal temperature when the wall is not known: then nobody
 * knows how long it took to get there.
 */
export function ovenExposure(heat: Heat, options: OvenOptions = {}): Exposure {
  const oven = ovenOf(options.oven);
  const { wallMm, fan } = options;
  if (wallMm === undefined && heat.counted === 'at metal temperature')
    throw new TemperbookError('A time at metal temperature needs the wall of the part', {
      found: `${formatTemp(heat.setC)} for ${formatDuration(heat.timeS)} at metal temperature`,
      expected: 'the heaviest wall, such as "6mm" or "1/4in"',
      remedy: 'On the way up and down the metal ages too, and how long that takes depends on its wall',
    });
  const { history, doubts } = wallMm === undefined ? atOnce(heat) : following(heat, { wallMm, fan });
  const rise = heat.setC - SHOP_C;
  const share = history.tempC.map((temp) => (rise === 0 ? 0 : Math.max(0, (temp - SHOP_C) / rise)));
  const part = wallMm === undefined ? undefined : { wallMm, fan };
  const swingK = swingOfMetalK(oven, heat.setC, part);
  return {
    history,
    doubts: [
      ...doubts,
      {
        kind: 'oven',
        of: 'the dial of the oven',
        spread: { shape: 'even', low: -1, high: 1 },
        shiftK: share.map((s) => s * oven.dialK),
      },
      ...(swingK > 0
        ? [
            {
              kind: 'swing' as const,
              of: 'the swing of the oven',
              spread: { shape: 'even' as const, low: 0, high: 1 },
              shiftK: share.map((s) => s * swingK),
            },
          ]
        : []),
    ],
    blind: [],
    because: [
      `The oven was set to ${formatTemp(heat.setC)} for ${formatDuration(heat.timeS)}, counted ${heat.counted}.`,
      `Oven ${oven.name}: within ±${formatTempSpan(oven.dialK)} of the set point${swingK > 0 ? `, and its swing acts like up to ${formatTempSpan(swingK)} more` : ''} (${oven.source}${oven.known === 'memory' ? '; from memory' : ''}).`,
      wallMm === undefined
        ? 'The metal is taken to be as hot as its air from door to door: no wall is hotter for longer.'
        : `A wall of ${wallMm} mm ${fan === undefined ? 'with or without a fan' : fan ? 'with a fan' : 'without a fan'} follows with a time constant of ${[1, 0].map((k) => formatDuration(timeConstantS(followerAt({ wallMm, fan }, k), heat.setC))).join(' to ')} (film coefficients of a handbook, from memory).`,
    ],
  };
}

/** What nobody said of a heat, as questions whose answers narrow it. */
export function ovenAsks({ oven, wallMm, fan }: OvenOptions): string[] {
  return [
    ...(oven === undefined
      ? [
          'Which oven? Not said, it counts as the loosest, a kitchen oven: "kitchen", the class of its last survey ("class 5"), or how far from the set point it was measured ("±15F").',
        ]
      : []),
    ...(wallMm === undefined
      ? ['How thick is the heaviest wall? Not said, the metal counts as hot from door to door.']
      : fan === undefined
        ? ['Does a fan move the air? Not said, both are counted.']
        : []),
  ];
}

interface Course {
  readonly history: ThermalHistory;
  readonly doubts: readonly Doubt[];
}

function atOnce({ setC, timeS }: Heat): Course {
  const step = Math.min(0.001, timeS / 10);
  return {
    history: thermalHistory([0, step, timeS, timeS + step], [SHOP_C, setC, setC, SHOP_C]),
    doubts: [],
  };
}

/** Every way as a history on one axis on which the door opens at the same time. */
function following({ setC, timeS, counted }: Heat, part: OvenPart): Course {
  const ways = Array.from({ length: WAYS }, (_, k) => wayOf(k / (WAYS - 1)));
  function wayOf(share: number) {
    const follower = followerAt(part, share);
    const tau = timeConstantS(follower, setC);
    // Radiation is weaker while the part is cold, so the slowest time constant is longer than that at the set point.
    const reachS = counted === 'from the door' ? timeS : timeS + 12 * tau;
    const up = followAir(follower, { startC: SHOP_C, airC: setC, untilS: reachS });
    const inS =
      counted === 'from the door'
        ? timeS
        : timeS + firstAt(up, setC - Math.sign(setC - SHOP_C) * AT_TEMPERATURE_K);
    const outC = tempAt(up, Math.min(inS, reachS));
    const cooling = followerAt({ ...part, fan: false }, share);
    const coolS = Math.max(1, 3 * timeConstantS(cooling, COLD_C));
    const down = followAir(cooling, { startC: outC, airC: SHOP_C, untilS: coolS });
    const at = (t: number): number =>
      t < 0
        ? t < -inS
          ? SHOP_C
          : tempAt(up, Math.min(inS + t, reachS))
        : t > coolS
          ? SHOP_C
          : tempAt(down, t);
    const rises = [0, 0.3, 0.7, 1.2, 2, 3, 4.5].map((taus) => Math.min(-1, taus * tau - inS));
    return { inS, coolS, at, rises: counted === 'from the door' ? [] : rises };
  }
  const longestInS = Math.max(...ways.map(({ inS }) => inS));
  const longestOutS = Math.max(...ways.map(({ coolS }) => coolS));
  const axis = ascending([
    ...ways.flatMap(({ rises }) => rises),
    ...Array.from({ length: POINTS }, (_, i) => -longestInS * (1 - (i / POINTS) ** 2)),
    ...Array.from({ length: POINTS + 1 }, (_, i) => longestOutS * (i / POINTS) ** 2),
  ]);
  const runs = ways.map(({ at }) => Float64Array.from(axis, at));
  const middle = runs[Math.floor(WAYS / 2)]!;
  return {
    history: thermalHistory(
      axis.map((t) => t + longestInS),
      middle,
    ),
    doubts: [
      {
        kind: 'following',
        of: 'how fast the part follows its oven',
        runsK: runs.map((run) => run.map((temp, i) => temp - middle[i]!)),
      },
    ],
  };
}

const ascending = (times: readonly number[]): number[] =>
  [...new Set(times.map((t) => Math.round(t * 10) / 10))].sort((a, b) => a - b);

/** When a history first comes to a temperature, s; its end where it never does. */
function firstAt({ timeS, tempC }: ThermalHistory, levelC: number): number {
  const sign = Math.sign(levelC - tempC[0]!);
  for (let i = 1; i < timeS.length; i++)
    if (sign * (tempC[i]! - levelC) >= 0)
      return (
        timeS[i - 1]! + ((timeS[i]! - timeS[i - 1]!) * (levelC - tempC[i - 1]!)) / (tempC[i]! - tempC[i - 1]!)
      );
  return timeS[timeS.length - 1]!;
}

/** The steady rise that ages metal like the swing of its air, K. */
function swingOfMetalK({ swingK, periodS = 600 }: Oven, setC: number, part?: OvenPart): number {
  if (swingK === 0) return 0;
  const tau = part === undefined ? 0 : timeConstantS(followerAt(part, 1), setC);
  const amplitudeK = swingK / Math.hypot(1, (2 * Math.PI * tau) / periodS);
  const perK = ACTIVATION_J_PER_MOL / (GAS_CONSTANT * celsiusToKelvin(setC) ** 2);
  return Math.log(besselI0(amplitudeK * perK)) / perK;
}

/** I₀ by its power series; for the arguments here (below 6) thirty terms reach rounding. Abramowitz & Stegun 9.6.12. */
function besselI0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; k < 30; k++) {
    term *= (x / 2 / k) ** 2;
    sum += term;
  }
  return sum;
}
