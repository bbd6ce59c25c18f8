import { checkHistory, type ThermalHistory } from '../../history';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../quantity';
import { goneAfter, meanOfDecay, meanRate, rateClock } from './arrhenius';
import { dissolveStep, solubleShare } from './dissolution';
import type { MetalState } from './metalState';
import type { PlausibleMetal } from './plausibleMetal';
import { curveLeft, delayedLeft } from './softening';
import {
  ageingCeiling,
  CLUSTERS_GONE_C,
  CLUSTERS_STABLE_C,
  clusteredInTheEnd,
  leastUseful,
  meanWithoutBrake,
  newParticles,
  spentOn,
} from './solute';
import { COLD_C, DISSOLVES_FROM_C, isOneStep, stepCount } from './stepCount';

/** What one plausible metal does along a history. */
export interface MetalTrack {
  readonly state: MetalState;
  /** Yield at every sample asked for, were the part cooled there at once, over that before the first heat. */
  readonly yieldKept: Float64Array;
}

/** Asks `advanceMetal` for the last yield alone. */
export const AT_THE_END = new Uint32Array(0);

/** Solute and new particles below this share are none. */
const NOTHING = 1e-9;
/** A dose that grew by no more than this factor softens no further: 3e-8 of the yield. */
const NEXT_TO_NOTHING = 1 + 1e-7;
/** And nuclei above this are all there can be. */
const ALL = 1 - NOTHING;

/**
 * Takes a plausible metal along a thermal history. Between samples the temperature is a straight line, cut into steps
 * of 5 K; on each every Arrhenius clock adds the logarithmic mean of its rate, so a history may be split, joined or
 * sampled otherwise and the yield moves by no more than about 1e-3. A slow cooling through the temperature above which
 * nothing ages is the exception: of what forms there only the mean dose is kept, and with steps of 2.5 K instead of finer ones
 * 1 in 100 members of A356 comes out 0.04 lower, the worst of 400 by 0.35; the median stays. Gaps are left out: the state
 * stands still.
 * @param at samples at which the yield is asked for, ascending; the end is added. Default every sample.
 * @throws TemperbookError for a history that breaks its promises.
 */
export function advanceMetal(
  metal: PlausibleMetal,
  state: MetalState,
  history: ThermalHistory,
  at?: Uint32Array,
): MetalTrack {
  checkHistory(history);
  const { timeS, tempC, gapAfter } = history;
  const n = timeS.length;
  const yieldKept = new Float64Array(at === undefined ? n : at.length + 1);

  // Read once: through the table of contents of a room it takes as long as a step.
  const zeroK = ZERO_C_IN_K;
  const { softeningPower: power, coarseCatch, noAgeingFromC, agesFastestC } = metal;
  const { nucleiOverAgeing, restBrake } = metal;
  const isBraked = restBrake !== 1;
  const agesFastestInverseK = 1 / (agesFastestC + zeroK);
  const softening = rateClock(metal.softening);
  const delaying = metal.delay ? rateClock(metal.delay) : null;
  const dissolving = rateClock(metal.dissolution);
  const ageing = rateClock(metal.ageing);
  const fastestAgeing = Math.exp(ageing.atInfinity - ageing.perInverseK * agesFastestInverseK);
  const clustering = rateClock(metal.clusters);
  const forgetting = rateClock(metal.restForgotten);
  const solvusPerInverseK = metal.solvusJPerMol / GAS_CONSTANT;
  const solvusInverseK = 1 / (metal.solvusC + zeroK);

  const { startYieldMPa, floorMPa, hardeningMPa, solutionMPa, naturalMPa, original } = state;
  // Told to be numbers: what a loop carries on from a property is else put in a box on every step, a tenth of the time.
  let dose = +state.dose;
  let delay = +state.delay;
  let dissolution = +state.dissolution;
  let soluble = +state.soluble;
  let clustered = +state.clustered;
  let clusterable = +state.clusterable;
  let nuclei = +state.nuclei;
  let rested = +state.rested;
  let aged = +state.aged;
  let agedDose = +state.agedDose;
  const hardens = hardeningMPa > 0;

  let left = 1;
  let leftAtDose = Number.NaN;
  let leftAtDelay = Number.NaN;
  let softeningRate = 0;
  let delayRate = 0;
  let ratesAtC = Number.NaN;
  let dissolvingRate = 0;
  let limit = 0;
  let dissolvingAtC = Number.NaN;
  let gap = 0;
  let asked = 0;
  for (let i = 0; i < n; i++) {
    const skipped = i === 0 || (gapAfter !== undefined && gapAfter[gap] === i - 1);
    if (skipped && i > 0) gap++;
    const spanS = i === 0 ? 0 : timeS[i]! - timeS[i - 1]!;
    const startC = i === 0 ? tempC[0]! : tempC[i - 1]!;
    const rise = tempC[i]! - startC;
    const hottest = rise > 0 ? startC + rise : startC;
    const solute = soluble > NOTHING || aged > NOTHING;
    if (!skipped && hardens && (hottest > COLD_C || solute)) {
      const there = soluble > NOTHING ? 'soluble' : solute ? 'aged' : 'none';
      const steps = isOneStep(rise, spanS, fastestAgeing)
        ? 1
        : stepCount(metal, ageing, fastestAgeing, startC, rise, spanS, there);
      const stepS = spanS / steps;
      let inverse = 1 / (startC + zeroK);
      // As a rule the rates are those at the end of the interval before.
      if (ratesAtC !== startC) {
        softeningRate = Math.exp(softening.atInfinity - softening.perInverseK * inverse);
        if (delaying) delayRate = Math.exp(delaying.atInfinity - delaying.perInverseK * inverse);
      }
      const dissolves = hottest > DISSOLVES_FROM_C;
      if (dissolves && dissolvingAtC !== startC) {
        dissolvingRate = Math.exp(dissolving.atInfinity - dissolving.perInverseK * inverse);
        limit = solubleShare(inverse, solvusPerInverseK, solvusInverseK) ** 2;
      }
      // On a hold every step has the rates of the first.
      const isHold = rise === 0;
      let clusteringRate = 0;
      let forgettingRate = 0;
      let ageingRate = 0;
      for (let step = 1; step <= steps; step++) {
        const endC = startC + (rise * step) / steps;
        const endInverse = 1 / (endC + zeroK);
        const fall = inverse - endInverse;
        inverse = endInverse;

        const softeningEnd = isHold
          ? softeningRate
          : Math.exp(softening.atInfinity - softening.perInverseK * endInverse);
        const doseGain = stepS * meanRate(softeningRate, softeningEnd, softening.perInverseK * fall);
        const softeningStart = softeningRate;
        softeningRate = softeningEnd;
        dose += doseGain;
        let delayGain = 0;
        if (delaying) {
          const delayEnd = isHold
            ? delayRate
            : Math.exp(delaying.atInfinity - delaying.perInverseK * endInverse);
          delayGain = stepS * meanRate(delayRate, delayEnd, delaying.perInverseK * fall);
          delay += delayGain;
          delayRate = delayEnd;
        }

        if (aged > NOTHING) agedDose += doseGain;
        if (dissolves) {
          const dissolvingEnd = isHold
            ? dissolvingRate
            : Math.exp(dissolving.atInfinity - dissolving.perInverseK * endInverse);
          const dissolved = stepS * meanRate(dissolvingRate, dissolvingEnd, dissolving.perInverseK * fall);
          dissolvingRate = dissolvingEnd;
          const limitEnd = isHold ? limit : solubleShare(endInverse, solvusPerInverseK, solvusInverseK) ** 2;
          const before = dissolution;
          dissolution = dissolveStep(before, dissolved, limit, limitEnd);
          const limitBefore = limit;
          limit = limitEnd;
          let freed = dissolution > before ? original * (Math.sqrt(dissolution) - Math.sqrt(before)) : 0;
          // New particles dissolve like the others, as far as the solvus has room for their solute.
          const room = aged > NOTHING ? Math.sqrt((limitBefore + limitEnd) / 2) - soluble - freed : 0;
          if (room > 0) {
            const back = Math.min(aged * goneAfter(2 * dissolved), room);
            aged -= back;
            freed += back;
          }
          if (freed > 0) {
            // Where solute comes free there is neither cluster nor nucleus, nor has it rested.
            const share = soluble / (soluble + freed);
            clustered *= share;
            nuclei *= share;
            rested *= share;
            clusterable = (clusterable * soluble + freed) / (soluble + freed);
            soluble += freed;
          }
        }
        if (soluble > NOTHING) {
          const midC = endC - rise / (2 * steps);
          const midInverse = 1 / (midC + zeroK);
          let slowedBy = 1;
          // Hot metal without clusters has no more of them to lose.
          if (clustered > NOTHING || midC < CLUSTERS_GONE_C) {
            if (!isHold || clusteringRate === 0)
              clusteringRate = Math.exp(clustering.atInfinity - clustering.perInverseK * midInverse);
            const gone = goneAfter(stepS * clusteringRate);
            clustered += (clusterable * clusteredInTheEnd(midC) - clustered) * gone;
            if (isBraked && midC < CLUSTERS_STABLE_C) rested += (1 - rested) * gone;
          }
          if (isBraked) {
            slowedBy = 1 + (restBrake - 1) * rested;
            if (midC >= CLUSTERS_STABLE_C && rested > NOTHING) {
              if (!isHold || forgettingRate === 0)
                forgettingRate = Math.exp(forgetting.atInfinity - forgetting.perInverseK * midInverse);
              const forgotten = stepS * forgettingRate;
              slowedBy = 1 / meanWithoutBrake(slowedBy - 1, forgotten);
              rested *= Math.exp(-forgotten);
            }
          }
          if (midC > COLD_C && midC < noAgeingFromC) {
            const intact = original * (1 - Math.sqrt(dissolution));
            // What softens meanwhile is taken as in the middle of the step, and as before where next to nothing came to it.
            const midDose = dose - doseGain / 2;
            const midDelay = delay - delayGain / 2;
            if (!(midDose <= leftAtDose && midDelay <= leftAtDelay)) {
              left = delayedLeft(midDose, power, midDelay);
              leftAtDose = midDose * NEXT_TO_NOTHING;
              leftAtDelay = midDelay * NEXT_TO_NOTHING;
            }
            const agedLeft = aged > 0 ? curveLeft(agedDose - doseGain / 2, power) : 0;
            const present = intact * left + aged * agedLeft;
            const ceiling = ageingCeiling(midC, noAgeingFromC);
            const room = ceiling - present;
            const coarse = intact * (1 - left);
            const least = leastUseful(coarse, coarseCatch);
            if (room > 0 && soluble > least) {
              if (!isHold || ageingRate === 0) {
                const ageingInverse = midC < agesFastestC ? midInverse : agesFastestInverseK;
                // New particles form the more slowly the less drives them.
                ageingRate =
                  ceiling *
                  ceiling *
                  ceiling *
                  Math.exp(ageing.atInfinity - ageing.perInverseK * ageingInverse);
              }
              let meanNuclei = 1;
              if (nuclei < ALL) {
                const nucleating = (stepS * ageingRate) / (nucleiOverAgeing * slowedBy);
                const without = 1 - nuclei;
                nuclei = 1 - without * Math.exp(-nucleating);
                // Of n = 1 − (1 − n₀) exp(−k) the mean over the step.
                meanNuclei = 1 - without * meanOfDecay(nucleating);
              }
              const ageingShare = goneAfter(stepS * ageingRate * meanNuclei);
              const most = room * ageingShare;
              let spent = Math.min(soluble * ageingShare, soluble - least);
              let formed = newParticles(spent, soluble, coarse, coarseCatch);
              if (formed > most) {
                formed = most;
                spent = spentOn(most, soluble, coarse, coarseCatch);
              }
              if (formed > 0) {
                // What forms evenly on the step sees the dose that comes after it, ∫ u r du with a rate r that runs straight.
                const seenByNew =
                  (doseGain * (softeningStart + 2 * softeningEnd)) / (3 * (softeningStart + softeningEnd));
                agedDose = (aged * agedDose + formed * seenByNew) / (aged + formed);
              }
              aged += formed;
              soluble -= spent;
            }
          }
        }
      }
      ratesAtC = tempC[i]!;
      if (dissolves) dissolvingAtC = ratesAtC;
    }
    if (at !== undefined && i !== at[asked] && i !== n - 1) continue;
    const ofOriginal = original * (1 - Math.sqrt(dissolution)) * delayedLeft(dose, power, delay);
    const hardening = ofOriginal + (aged > 0 ? aged * curveLeft(agedDose, power) : 0);
    const kept =
      (floorMPa + hardeningMPa * hardening + soluble * (solutionMPa + naturalMPa * clustered)) /
      startYieldMPa;
    if (at === undefined) yieldKept[i] = kept;
    else {
      for (; at[asked] === i; asked++) yieldKept[asked] = kept;
      if (i === n - 1) yieldKept[asked] = kept;
    }
  }
  return {
    state: {
      ...state,
      dose,
      delay,
      dissolution,
      soluble,
      clustered,
      clusterable,
      nuclei,
      rested,
      aged,
      agedDose,
    },
    yieldKept,
  };
}
