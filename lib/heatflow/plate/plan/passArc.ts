import { heatInput } from '../../heatInput';
import type { AlongPath, PlanPoint, PlatePass } from './platePlan';

/** Where an arc is and which way it goes. */
export interface ArcPose {
  readonly at: PlanPoint;
  /** Unit vector of travel. */
  readonly along: PlanPoint;
}

/** A pass in numbers: how long its arc burns, where it is and what it brings at any share of that time. */
export interface PassArc {
  readonly lengthMm: number;
  readonly arcOnS: number;
  /** Mean of what enters the part, W. */
  readonly meanPowerW: number;
  /** Shares of the time at which the path bends, 0 and 1 included. */
  readonly bends: readonly number[];
  powerW(share: number): number;
  pose(share: number): ArcPose;
  /** The second path, where there is one. */
  besidePose?(share: number): ArcPose;
  readonly besideShare: number;
}

/** Reads a checked pass. */
export function passArc(pass: PlatePass): PassArc {
  const way = wayAlong(pass.path);
  const arcOnS = pass.arcOnS ?? way.lengthMm / travelMmPerS(pass);
  const power = powerAlong(pass, way.lengthMm / arcOnS);
  return {
    lengthMm: way.lengthMm,
    arcOnS,
    meanPowerW: power.mean(way.lengthMm),
    bends: way.bends,
    powerW: (share) => power.at(share * way.lengthMm),
    pose: way.pose,
    ...(pass.beside ? { besidePose: wayAlong(pass.beside.path).pose } : {}),
    besideShare: pass.beside?.share ?? 0,
  };
}

/** The travel speed of a pass that says one, mm/s. */
export const travelMmPerS = (pass: PlatePass): number =>
  pass.travelMmPerS ?? (pass.travelMmPerMin === undefined ? Number.NaN : pass.travelMmPerMin / 60);

/** How long the arc of a pass burns, s. */
export const arcTimeS = (pass: PlatePass): number => passArc(pass).arcOnS;

/** How long the path of a pass is, mm. */
export const passLengthMm = (pass: PlatePass): number => passArc(pass).lengthMm;

interface Along {
  at(wayMm: number): number;
  mean(lengthMm: number): number;
}

function powerAlong(pass: PlatePass, mmPerS: number): Along {
  if (pass.netPowerW !== undefined) return curve(pass.netPowerW);
  const current = curve(pass.amps!);
  const { process, volts, efficiency } = pass;
  // What `heatInput` says of one ampere more: volts × efficiency.
  const perAmp =
    efficiency === undefined
      ? heatInput({
          amps: 100,
          volts: volts!,
          process: process!,
          // Of no account for the power; a dwell has none.
          travelMmPerS: mmPerS > 0 ? mmPerS : 1,
        }).netPowerW.nominal / 100
      : efficiency * volts!;
  return { at: (mm) => perAmp * current.at(mm), mean: (mm) => perAmp * current.mean(mm) };
}

function curve(value: number | AlongPath): Along {
  if (typeof value === 'number') return { at: () => value, mean: () => value };
  const { atMm, value: values } = value;
  const at = (mm: number) => {
    const k = atMm.findIndex((x) => x > mm);
    if (k === 0) return values[0]!;
    if (k < 0) return values.at(-1)!;
    const share = (mm - atMm[k - 1]!) / (atMm[k]! - atMm[k - 1]!);
    return values[k - 1]! + share * (values[k]! - values[k - 1]!);
  };
  const mean = (lengthMm: number) => {
    const ends = [0, ...atMm.filter((mm) => mm > 0 && mm < lengthMm), lengthMm];
    let area = 0;
    for (let i = 1; i < ends.length; i++)
      area += ((at(ends[i - 1]!) + at(ends[i]!)) / 2) * (ends[i]! - ends[i - 1]!);
    return lengthMm > 0 ? area / lengthMm : at(0);
  };
  return { at, mean };
}

function wayAlong(path: readonly PlanPoint[]): {
  readonly lengthMm: number;
  readonly bends: readonly number[];
  pose(share: number): ArcPose;
} {
  const legs: (ArcPose & { readonly startMm: number; readonly endMm: number })[] = [];
  let lengthMm = 0;
  for (let i = 1; i < path.length; i++) {
    const [from, to] = [path[i - 1]!, path[i]!];
    const mm = Math.hypot(to[0] - from[0], to[1] - from[1]);
    if (mm === 0) continue;
    const along = [(to[0] - from[0]) / mm, (to[1] - from[1]) / mm] as const;
    legs.push({ at: from, along, startMm: lengthMm, endMm: lengthMm + mm });
    lengthMm += mm;
  }
  if (legs.length === 0) {
    const pose: ArcPose = { at: path[0]!, along: [1, 0] };
    return { lengthMm: 0, bends: [0, 1], pose: () => pose };
  }
  const pose = (share: number): ArcPose => {
    const mm = share * lengthMm;
    const leg = legs.find(({ endMm }) => mm <= endMm) ?? legs.at(-1)!;
    const [ux, uy] = leg.along;
    const on = mm - leg.startMm;
    return { at: [leg.at[0] + ux * on, leg.at[1] + uy * on], along: leg.along };
  };
  return { lengthMm, bends: [0, ...legs.map(({ endMm }) => endMm / lengthMm)], pose };
}
