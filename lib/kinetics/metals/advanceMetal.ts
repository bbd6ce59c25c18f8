import { checkHistory, type ThermalHistory } from '../../history';
import { GAS_CONSTANT, ZERO_C_IN_K } from '../../quantity';
import { meanOfDecay, meanRate, rateClock } from './arrhenius';
import { dissolveStep, solubleShare } from './dissolution';
import type { MetalState } from './metalState';
import type { PlausibleMetal } from './plausibleMetal';
import { curveLeft, delayedLeft } from './softening';
import {
  ageingCeiling,
  CLUSTERS_STABLE_C,
  clusteredInTheEnd,
  leastUseful,
  meanWithoutBrake,
  newParticles,
} from './solute';

/** What one plausible metal does along a history. */
export interface MetalTrack {
  readonly state: MetalState;
  /** Yield at every sample, were the part cooled there at once, over that before the first heat. */
  readonly yieldKept: Float64Array;
}

/** Colder than this nothing happens to particles, °C: a year at 60 °C is a thousandth of a second at 200 °C. */
const COLD_C = 60;
/** No step is wider than this, K: the logarithmic mean of a rate is then good to 1e-3. */
const STEP_K = 5;
/** And none this, K, where there is solute: dissolution and ageing are taken in turns on every step. */
const SOLUTE_STEP_K = 2.5;
/** Steps of no more than this in units of the ageing time while solute is ageing, and how many at most. */
const AGEING_STEP = 0.25;
const MOST_AGEING_STEPS = 128;
/** Colder than this nothing dissolves, °C: at 150 °C it takes years. */
const DISSOLVES_FROM_C = 150;
/** Solute and new particles below this share are none. */
const NOTHING = 1e-9;

/**
 * Takes a plausible metal along a thermal history. Between samples the temperature is a straight line, cut into steps
 * of 5 K; on each every Arrhenius clock adds the logarithmic mean of its rate, so a history may be split, joined or
 * sampled otherwise and the yield moves by no more than about 1e-3. Gaps are left out: the state stands still.
 * @throws TemperbookError for a history that breaks its promises.
 */
export function advanceMetal(metal: PlausibleMetal, state: MetalState, history: ThermalHistory): MetalTrack {
  checkHistory(history);
  const { timeS, tempC, gapAfter } = history;
  const n = timeS.length;
  const yieldKept = new Float64Array(n);

  const { softeningPower: power, coarseCatch, noAgeingFromC, agesFastestC } = metal;
  const { nucleiOverAgeing, restBrake } = metal;
  const agesFastestInverseK = 1 / (agesFastestC + ZERO_C_IN_K);
  const softening = rateClock(metal.softening);
  const delaying = metal.delay ? rateClock(metal.delay) : null;
  const dissolving = rateClock(metal.dissolution);
  const ageing = rateClock(metal.ageing);
  const clustering = rateClock(metal.clusters);
  const forgetting = rateClock(metal.restForgotten);
  const solvusPerInverseK = metal.solvusJPerMol / GAS_CONSTANT;
  const solvusInverseK = 1 / (metal.solvusC + ZERO_C_IN_K);

  const { startYieldMPa, floorMPa, hardeningMPa, solutionMPa, naturalMPa, original } = state;
  let { dose, delay, dissolution, soluble, clustered, clusterable, nuclei, rested, aged, agedDose } = state;
  const hardens = hardeningMPa > 0;

  let gap = 0;
  for (let i = 0; i < n; i++) {
    const skipped = i === 0 || (gapAfter !== undefined && gapAfter[gap] === i - 1);
    if (skipped && i > 0) gap++;
    const spanS = i === 0 ? 0 : timeS[i]! - timeS[i - 1]!;
    const startC = i === 0 ? tempC[0]! : tempC[i - 1]!;
    const rise = tempC[i]! - startC;
    const hottest = rise > 0 ? startC + rise : startC;
    const solute = soluble > NOTHING || aged > NOTHING;
    if (!skipped && hardens && (hottest > COLD_C || solute)) {
      let steps = hottest > COLD_C ? Math.ceil(Math.abs(rise) / (solute ? SOLUTE_STEP_K : STEP_K)) : 1;
      // Where particles dissolve, solute comes free on the way and ages, unless all of the way is too hot for that.
      const coolest = rise > 0 ? startC : startC + rise;
      if (coolest < noAgeingFromC && hottest > (soluble > NOTHING ? COLD_C : DISSOLVES_FROM_C)) {
        const agesAt = Math.min(hottest, agesFastestC) + ZERO_C_IN_K;
        const perStep = (spanS * Math.exp(ageing.atInfinity - ageing.perInverseK / agesAt)) / AGEING_STEP;
        if (perStep > steps) steps = Math.min(Math.ceil(perStep), Math.max(steps, MOST_AGEING_STEPS));
      }
      if (steps < 1) steps = 1;
      const stepS = spanS / steps;
      let inverse = 1 / (startC + ZERO_C_IN_K);
      let softeningRate = Math.exp(softening.atInfinity - softening.perInverseK * inverse);
      const dissolves = hottest > DISSOLVES_FROM_C;
      let dissolvingRate = dissolves ? Math.exp(dissolving.atInfinity - dissolving.perInverseK * inverse) : 0;
      let limit = dissolves ? solubleShare(inverse, solvusPerInverseK, solvusInverseK) ** 2 : 0;
      let delayRate = delaying ? Math.exp(delaying.atInfinity - delaying.perInverseK * inverse) : 0;
      // On a hold every step has the rates of the first.
      const isHold = rise === 0;
      let clusteringRate = 0;
      let forgettingRate = 0;
      let ageingRate = 0;
      for (let step = 1; step <= steps; step++) {
        const endC = startC + (rise * step) / steps;
        const endInverse = 1 / (endC + ZERO_C_IN_K);
        const fall = inverse - endInverse;
        inverse = endInverse;

        const softeningEnd = isHold
          ? softeningRate
          : Math.exp(softening.atInfinity - softening.perInverseK * endInverse);
        const doseGain = stepS * meanRate(softeningRate, softeningEnd, softening.perInverseK * fall);
        // What forms evenly on the step sees the dose that comes after it, ∫ u r du with a rate r that runs straight.
        const seenByNew =
          (doseGain * (softeningRate + 2 * softeningEnd)) / (3 * (softeningRate + softeningEnd));
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
            const back = Math.min(-aged * Math.expm1(-2 * dissolved), room);
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
          const midInverse = 1 / (midC + ZERO_C_IN_K);
          if (!isHold || clusteringRate === 0)
            clusteringRate = Math.exp(clustering.atInfinity - clustering.perInverseK * midInverse);
          clustered -=
            (clusterable * clusteredInTheEnd(midC) - clustered) * Math.expm1(-stepS * clusteringRate);
          let slowedBy = 1 + (restBrake - 1) * rested;
          if (midC < CLUSTERS_STABLE_C) rested -= (1 - rested) * Math.expm1(-stepS * clusteringRate);
          else if (rested > NOTHING) {
            if (!isHold || forgettingRate === 0)
              forgettingRate = Math.exp(forgetting.atInfinity - forgetting.perInverseK * midInverse);
            const forgotten = stepS * forgettingRate;
            slowedBy = 1 / meanWithoutBrake(slowedBy - 1, forgotten);
            rested *= Math.exp(-forgotten);
          }
          if (midC > COLD_C && midC < noAgeingFromC) {
            const intact = original * (1 - Math.sqrt(dissolution));
            // What softens meanwhile is taken as in the middle of the step.
            const left = delayedLeft(dose - doseGain / 2, power, delay - delayGain / 2);
            const present = intact * left + aged * curveLeft(agedDose - doseGain / 2, power);
            const ceiling = ageingCeiling(midC, noAgeingFromC);
            const room = ceiling - present;
            const coarse = intact * (1 - left);
            if (room > 0 && soluble > leastUseful(coarse, coarseCatch)) {
              if (!isHold || ageingRate === 0) {
                const ageingInverse = midC < agesFastestC ? midInverse : agesFastestInverseK;
                // New particles form the more slowly the less drives them.
                ageingRate = ceiling ** 3 * Math.exp(ageing.atInfinity - ageing.perInverseK * ageingInverse);
              }
              const nucleating = (stepS * ageingRate) / (nucleiOverAgeing * slowedBy);
              const without = 1 - nuclei;
              nuclei = 1 - without * Math.exp(-nucleating);
              // Of n = 1 − (1 − n₀) exp(−k) the mean over the step.
              const meanNuclei = 1 - without * meanOfDecay(nucleating);
              const ageingShare = -Math.expm1(-stepS * ageingRate * meanNuclei);
              const { formed, spent } = newParticles(
                soluble,
                coarse,
                coarseCatch,
                ageingShare,
                room * ageingShare,
              );
              if (formed > 0) agedDose = (aged * agedDose + formed * seenByNew) / (aged + formed);
              aged += formed;
              soluble -= spent;
            }
          }
        }
      }
    }
    const left = original * (1 - Math.sqrt(dissolution)) * delayedLeft(dose, power, delay);
    const hardening = left + (aged > 0 ? aged * curveLeft(agedDose, power) : 0);
    yieldKept[i] =
      (floorMPa + hardeningMPa * hardening + soluble * (solutionMPa + naturalMPa * clustered)) /
      startYieldMPa;
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
