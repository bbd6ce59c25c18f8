import { formatPercent, formatTempSpan } from '../../quantity';
import type { LeastSquaresFit } from '../../statistics';
import type { CalibrationUnknown } from './calibration';
import type { ChannelResidual } from './channelResidual';

/** Above this correlation two unknowns can stand in for one another. */
const ALIKE = 0.95;
/** A model further off than this share of a channel's swing is not the part that was logged. */
const MISFIT = 0.1;
/** A standard error above this share of the range an unknown may have says no more than the range itself. */
const OPEN = 0.5;
/**
 * Residuals that go together from one reading to the next are not noise, however small. What lasts of them is told from
 * this much on: a travel speed held fixed and 10 % off leaves 0.9 % of the swing, a conductivity 10 % off 0.4 %
 * (fitted to logs of the explicit code in test/heatflow), a thermocouple's own slow drift under 1 °C.
 */
const LASTING = { shareOfSwing: 0.006, leastC: 1, persistence: 0.6 };

/** What a user must know before believing a calibration, in plain sentences. */
export function calibrationWarnings(
  fit: LeastSquaresFit,
  parameters: Readonly<Record<string, CalibrationUnknown>>,
  channels: readonly ChannelResidual[],
): string[] {
  const label = (name: string) => parameters[name]?.label ?? name;
  const misses = channels.flatMap(misfit);
  const open = fit.unknowns.filter(({ name, standardError }) => {
    const { low, high } = parameters[name] ?? { low: -Infinity, high: Infinity };
    // Where the model misses the log, standard errors are wide because of that: they say nothing of the log.
    return standardError === Infinity || (misses.length === 0 && standardError > OPEN * (high - low));
  });
  return [
    ...(fit.converged
      ? []
      : [`The fit did not settle: ${fit.ending} Start closer, or fit fewer quantities.`]),
    ...misses,
    ...fit.unknowns.flatMap((unknown) => {
      const { name, value, atBound } = unknown;
      // Where the log does not say, the value drifts to a bound for no reason.
      if (!atBound || open.includes(unknown)) return [];
      const unit = parameters[name]?.unit;
      const amount = `${Number(value.toPrecision(4))}${unit ? ` ${unit}` : ''}`;
      return [
        `${label(name)} came to rest on its ${atBound === 'low' ? 'lower' : 'upper'} bound of ${amount}: the log asks for more than was thought possible. Check the plan before believing any fitted value.`,
      ];
    }),
    ...(open.length > 0
      ? [
          `The log does not determine ${open.map(({ name }) => label(name)).join(' and ')}. Fix ${open.length > 1 ? 'one of them' : 'it at what you know'}, or log another place.`,
        ]
      : []),
    ...alikeGroups(
      fit.unknowns.map(({ name }) => name),
      fit.correlation,
    ).map((names) => alikeSentence(names.map(label))),
    ...fit.unknowns.flatMap(({ name, standardError }) => {
      const { prior, isNuisance } = parameters[name] ?? {};
      return prior && !isNuisance && standardError > 0.9 * prior.standardError
        ? [`The log says hardly more about ${label(name)} than was assumed before it.`]
        : [];
    }),
  ];
}

function misfit({ name, rmsC, swingK, persistence }: ChannelResidual): string[] {
  if (swingK === 0)
    return [
      `${name} reads the same temperature all along: there is nothing in it to fit to. Check the probe.`,
    ];
  const size = `${formatTempSpan(rmsC, 1)}, ${formatPercent(rmsC / swingK)} of its swing`;
  if (rmsC > MISFIT * swingK)
    return [`The model misses ${name} by ${size}: something other than the fitted quantities is wrong.`];
  // The part of the residual's variance that the next reading shares.
  const lastingC = rmsC * Math.sqrt(Math.max(0, persistence));
  if (persistence > LASTING.persistence && lastingC > Math.max(LASTING.leastC, LASTING.shareOfSwing * swingK))
    return [
      `The model stays off ${name} for long stretches, by ${formatTempSpan(lastingC, 1)} or ${formatPercent(lastingC / swingK)} of its swing: a number held fixed in the plan may be wrong and the fitted ones make up for it. Standard errors do not cover that.`,
    ];
  return [];
}

/** Unknowns that stand in for one another, those that hang together in one group. */
export function alikeGroups(
  names: readonly string[],
  correlation: readonly (readonly number[])[],
): string[][] {
  const group = names.map((_, j) => j);
  for (let a = 0; a < names.length; a++)
    for (let b = a + 1; b < names.length; b++)
      if (Math.abs(correlation[a]![b]!) > ALIKE) {
        const [from, to] = [group[b]!, group[a]!];
        for (const [j, own] of group.entries()) if (own === from) group[j] = to;
      }
  return [...new Set(group)]
    .map((own) => names.filter((_, j) => group[j] === own))
    .filter((alike) => alike.length > 1);
}

/** Says that a log knows several unknowns only together. */
export const alikeSentence = (labels: readonly string[]): string =>
  `The log cannot tell ${labels.slice(0, -1).join(', ')} and ${labels.at(-1)} apart: it shows what they do together. Their standard errors and draws allow for that; to know each by itself fix one, or log another place.`;
