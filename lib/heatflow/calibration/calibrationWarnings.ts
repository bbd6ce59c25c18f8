import { formatPercent } from '../../quantity';
import type { LeastSquaresFit } from '../../statistics';
import type { CalibrationUnknown } from './calibration';
import type { ChannelResidual } from './channelResidual';

/** Above this correlation two unknowns can stand in for one another. */
const ALIKE = 0.95;
/** A model further off than this share of a channel's swing is not the part that was logged. */
const MISFIT = 0.1;

/** What a user must know before believing a calibration, in plain sentences. */
export function calibrationWarnings(
  fit: LeastSquaresFit,
  parameters: Readonly<Record<string, CalibrationUnknown>>,
  channels: readonly ChannelResidual[],
): string[] {
  const label = (name: string) => parameters[name]?.label ?? name;
  return [
    ...(fit.converged
      ? []
      : [`The fit did not settle: ${fit.ending} Start closer, or fit fewer quantities.`]),
    ...channels.flatMap(({ name, rmsC, swingK }) =>
      rmsC > MISFIT * swingK
        ? [
            `The model misses ${name} by ${rmsC.toFixed(0)} °C, ${formatPercent(rmsC / swingK)} of its swing: something other than the fitted quantities is wrong.`,
          ]
        : [],
    ),
    ...fit.unknowns.flatMap(({ name, value, atBound }) => {
      if (!atBound) return [];
      const unit = parameters[name]?.unit;
      const amount = `${Number(value.toPrecision(4))}${unit ? ` ${unit}` : ''}`;
      return [
        `${label(name)} came to rest on its ${atBound === 'low' ? 'lower' : 'upper'} bound of ${amount}: the log asks for more than was thought possible. Check the plan before believing any fitted value.`,
      ];
    }),
    ...(fit.undetermined.length > 0
      ? [
          `The log does not determine ${fit.undetermined.map(label).join(' and ')}. Fix one of them, or log another place.`,
        ]
      : []),
    ...alikePairs(fit).map(
      ([a, b, r]) =>
        `The log cannot tell ${label(a)} from ${label(b)} (correlation ${r.toFixed(2)}): ${r > 0 ? 'raising both' : 'raising one and lowering the other'} fits as well. Fix one of them, or log another place.`,
    ),
    ...fit.unknowns.flatMap(({ name, standardError }) => {
      const prior = parameters[name]?.prior;
      return prior && standardError > 0.9 * prior.standardError
        ? [`The log says hardly more about ${label(name)} than was assumed before it.`]
        : [];
    }),
  ];
}

function alikePairs({ unknowns, correlation }: LeastSquaresFit): [string, string, number][] {
  const pairs: [string, string, number][] = [];
  for (let a = 0; a < unknowns.length; a++)
    for (let b = a + 1; b < unknowns.length; b++) {
      const r = correlation[a]![b]!;
      if (Math.abs(r) > ALIKE) pairs.push([unknowns[a]!.name, unknowns[b]!.name, r]);
    }
  return pairs;
}
