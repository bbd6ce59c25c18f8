import { requireNumber } from '../../quantity';
import type { SectionLoad } from '../resistance/sectionLoad';
import { roomMm } from '../shape/sectionShape';
import type { WeldedSection } from '../weldedSection';
import { codeSteps } from './codeSteps';
import { type SizedAt, type SizeOptions, sizedAt } from './sizeSection';

/** Factor against thickness, with the code's jumps. */
export interface FactorCurve {
  readonly points: readonly SizedAt[];
  /** Thicknesses at which the code's answer jumps, mm. */
  readonly stepsMm: readonly number[];
  readonly wanted: number;
  readonly on: SizeOptions['on'];
}

/** The factor of a section at many thicknesses, with a point on either side of every step of the code; no
 * thicker than the section has room for. */
export function factorCurve(
  section: WeldedSection,
  loads: SectionLoad | readonly SectionLoad[],
  options: SizeOptions,
  { fromMm = 1, toMm = 20, count = 200 }: { fromMm?: number; toMm?: number; count?: number } = {},
): FactorCurve {
  requireNumber(fromMm, 'fromMm', { low: 0.3, high: 199 });
  requireNumber(toMm, 'toMm', { low: fromMm + 0.1, high: 200 });
  const end = Math.max(fromMm + 0.1, Math.min(toMm, roomMm(section.shape)));
  requireNumber(count, 'count', { low: 2, high: 10_000 });
  const stepsMm = codeSteps(options).filter((mm) => mm > fromMm && mm < end);
  const even = Array.from({ length: count }, (_, k) => fromMm + ((end - fromMm) * k) / (count - 1));
  const places = [...even, ...stepsMm.flatMap((mm) => [mm, mm + 1e-6])].sort((a, b) => a - b);
  return {
    points: places.map((mm) => sizedAt(section, loads, options, mm)),
    stepsMm,
    wanted: options.factor,
    on: options.on,
  };
}
