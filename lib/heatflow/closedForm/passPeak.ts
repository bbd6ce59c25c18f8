import { type MediumPlateWeld, mediumPlateRise } from './mediumPlateRise';
import { thickPlateRise } from './thickPlateRise';
import { type ThinPlateWeld, thinPlateRise } from './thinPlateRise';
import { type WeldInPlate, weldInMm } from './weldInPlate';

/** The hottest moment of a point as the arc passes. */
export interface PassPeak {
  readonly riseK: number;
  /** Where the arc then is: the point lies this far along, mm; negative, for the peak comes after the arc. */
  readonly alongMm: number;
}

/** Peak rise beside a thin-plate weld as the arc passes; formula and limits of `thinPlateRise`. */
export function thinPlatePeak(weld: ThinPlateWeld & { readonly acrossMm: number }): PassPeak {
  return peakBehind(weld, Math.abs(weld.acrossMm), (alongMm) => thinPlateRise({ ...weld, alongMm }));
}

/** Peak rise beside or below a thick-plate weld; formula and limits of `thickPlateRise`. */
export function thickPlatePeak(
  weld: WeldInPlate & { readonly acrossMm: number; readonly depthMm: number },
): PassPeak {
  return peakBehind(weld, Math.hypot(weld.acrossMm, weld.depthMm), (alongMm) =>
    thickPlateRise({ ...weld, alongMm }),
  );
}

/** Peak rise beside or below a weld on a plate of any thickness; formula and limits of `mediumPlateRise`. */
export function mediumPlatePeak(
  weld: MediumPlateWeld & { readonly acrossMm: number; readonly depthMm: number },
): PassPeak {
  return peakBehind(weld, Math.hypot(weld.acrossMm, weld.depthMm), (alongMm) =>
    mediumPlateRise({ ...weld, alongMm }),
  );
}

/**
 * Golden-section search for the one maximum behind the arc. In units of 2α/v the thick-plate peak lies u²/2 behind
 * the arc when u is large and less than u at any u, the thin-plate one u² behind, so 2u² + u holds them all.
 */
function peakBehind(weld: WeldInPlate, distanceMm: number, riseAt: (alongMm: number) => number): PassPeak {
  const { v, alpha } = weldInMm(weld);
  const unit = (2 * alpha) / v;
  const u = distanceMm / unit;
  const golden = (Math.sqrt(5) - 1) / 2;
  let low = -(2 * u * u + u) * unit;
  let high = 0;
  let left = high - golden * (high - low);
  let right = low + golden * (high - low);
  let [riseLeft, riseRight] = [riseAt(left), riseAt(right)];
  // 60 sections shrink the bracket 3e12 times; the flat top leaves the place known to about 1e-8 of it.
  for (let i = 0; i < 60; i++) {
    if (riseLeft < riseRight) {
      low = left;
      [left, riseLeft] = [right, riseRight];
      right = low + golden * (high - low);
      riseRight = riseAt(right);
    } else {
      high = right;
      [right, riseRight] = [left, riseLeft];
      left = high - golden * (high - low);
      riseLeft = riseAt(left);
    }
  }
  return riseLeft > riseRight ? { riseK: riseLeft, alongMm: left } : { riseK: riseRight, alongMm: right };
}
