import { vickersOfYield } from '../vickers';
import { clusterStrengthMPa } from './clusters';
import type { Moment } from './evolve';
import type { PrecipitateParameters } from './parameters';
import type { Anchor } from './precipitateState';
import type { ThermalPath } from './thermalPath';

/** What the model reports at every sample of a history. */
export interface PrecipitateSeries {
  readonly yieldMPa: Float64Array;
  /** Of wrought metal with this yield (`vickersOfYield`); a casting reads higher. */
  readonly hardnessHV: Float64Array;
  readonly particleStrengthMPa: Float64Array;
  readonly clusterStrengthMPa: Float64Array;
  readonly solutionStrengthMPa: Float64Array;
  readonly meanRadiusNm: Float64Array;
  readonly numberDensityPerM3: Float64Array;
  readonly volumeFraction: Float64Array;
  readonly matrixMgWtPct: Float64Array;
  readonly matrixSiWtPct: Float64Array;
}

/** Strength of particles and clusters together, MPa: obstacles of like strength add as the root of squares. */
export function obstacleMPa({ particleMPa, clusterMPa }: Moment): number {
  return Math.sqrt(particleMPa ** 2 + clusterMPa ** 2);
}

/** Yield of a moment in the metal it is anchored to, MPa: σi + σss + scale · σobstacles + offset. */
export function yieldOf(p: PrecipitateParameters, m: Moment, { particleScale, offsetMPa }: Anchor): number {
  return p.latticeMPa + m.solutionMPa + particleScale * obstacleMPa(m) + offsetMPa;
}

/**
 * Reads the moments of an evolution at the samples of its history, by straight line in θ between the start,
 * the middle and the end of each step.
 */
export function sampleMoments(
  p: PrecipitateParameters,
  moments: readonly Moment[],
  path: ThermalPath,
  anchor: Anchor,
): PrecipitateSeries {
  const samples = path.atSample.length;
  const series = {
    yieldMPa: new Float64Array(samples),
    hardnessHV: new Float64Array(samples),
    particleStrengthMPa: new Float64Array(samples),
    clusterStrengthMPa: new Float64Array(samples),
    solutionStrengthMPa: new Float64Array(samples),
    meanRadiusNm: new Float64Array(samples),
    numberDensityPerM3: new Float64Array(samples),
    volumeFraction: new Float64Array(samples),
    matrixMgWtPct: new Float64Array(samples),
    matrixSiWtPct: new Float64Array(samples),
  };
  let next = 1;
  let passed = 0;
  let place = 0;
  let whole = next < moments.length ? path.thetaM2(0, moments[1]!.place) : 0;
  for (let i = 0; i < samples; i++) {
    const at = path.atSample[i]!;
    while (next < moments.length - 1 && at > moments[next]!.place) {
      place = moments[next]!.place;
      passed = 0;
      next++;
      whole = path.thetaM2(place, moments[next]!.place);
    }
    const b = moments[Math.min(next, moments.length - 1)]!;
    const a = moments[Math.max(0, next - 1)]!;
    if (at > place) {
      passed += path.thetaM2(place, at);
      place = at;
    }
    const share = whole > 0 ? Math.min(1, passed / whole) : 0;
    const solution = mix(a.solutionMPa, b.solutionMPa, share);
    const particle = mix(a.particleMPa, b.particleMPa, share) * anchor.particleScale;
    const cluster = p.clusters
      ? clusterStrengthMPa(p.clusters, mix(a.clusterMgWtPct, b.clusterMgWtPct, share)) * anchor.particleScale
      : 0;
    const yieldMPa = p.latticeMPa + solution + Math.sqrt(particle ** 2 + cluster ** 2) + anchor.offsetMPa;
    series.yieldMPa[i] = yieldMPa;
    series.hardnessHV[i] = vickersOfYield(yieldMPa);
    series.particleStrengthMPa[i] = particle;
    series.clusterStrengthMPa[i] = cluster;
    series.solutionStrengthMPa[i] = solution;
    series.meanRadiusNm[i] = mix(a.meanRadiusM, b.meanRadiusM, share) * 1e9;
    series.numberDensityPerM3[i] = mix(a.numberPerM3, b.numberPerM3, share);
    series.volumeFraction[i] = mix(a.volumeFraction, b.volumeFraction, share);
    series.matrixMgWtPct[i] = mix(a.mgWtPct, b.mgWtPct, share);
    series.matrixSiWtPct[i] = mix(a.siWtPct, b.siWtPct, share);
  }
  return series;
}

function mix(from: number, to: number, share: number): number {
  return from + share * (to - from);
}
