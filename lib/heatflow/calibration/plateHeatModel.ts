import type { Pass } from '../../exposure';
import { TemperbookError } from '../../quantity';
import { arcTimeS, type PlatePass, type PlatePlan, probeNotes, solvePlate } from '../plate';
import type { HeatModel } from './calibration';

/**
 * The plate solver as a model for `calibrateToLog`: the plan for given values, and the probe of the plan each
 * channel is. For a fit, cells of 2 mm or more are usually fine: check the values once with finer ones.
 *
 * @param toleranceK error a step of the solver may add, default 1 K; its noise must stay well below what a step of
 * the fit changes. A probe in the weld pool, or where plan view is doubtful, makes a warning of the calibration.
 * @throws TemperbookError when a channel's probe is not in the plan.
 */
export function plateHeatModel<Name extends string>(
  probeOfChannel: readonly string[],
  planFor: (values: Readonly<Record<Name, number>>, passes: readonly Pass[]) => PlatePlan,
  toleranceK = 1,
): HeatModel<Name> {
  return (values, passes) => {
    const { probes, layers } = solvePlate(planFor(values, passes), { toleranceK });
    return probeOfChannel.map((name) => {
      const probe = probes.find((p) => p.name === name);
      if (probe) return { ...probe.history, remarks: probeNotes(probe, layers) };
      throw new TemperbookError(`No probe of the plan is called "${name}"`, {
        expected: `one of ${probes.map((p) => p.name).join(', ')}`,
      });
    });
  };
}

/**
 * The passes of a plan, started as far apart as those of a log. What comes before the first pass stays as planned:
 * the clock offset of the fit takes it up.
 * @throws TemperbookError when plan and log differ in number, or a pass starts before the one before it can have
 * ended.
 */
export function passesAsLogged(planned: readonly PlatePass[], logged: readonly Pass[]): PlatePass[] {
  if (planned.length !== logged.length)
    throw new TemperbookError('Plan and log hold different numbers of passes', {
      found: `${planned.length} planned, ${logged.length} in the log`,
      remedy: 'Plan the passes that were welded, tack welds and repairs included',
    });
  return planned.map((pass, k) => {
    if (k === 0) return pass;
    const waitS = logged[k]!.startS - logged[k - 1]!.startS - arcTimeS(planned[k - 1]!);
    if (waitS >= 0) return { ...pass, startAfter: { waitS } };
    throw new TemperbookError(`Pass ${k + 1} of the log starts before pass ${k} of the plan can have ended`, {
      found: `${(logged[k]!.startS - logged[k - 1]!.startS).toFixed(1)} s between their starts`,
      expected: `at least the ${arcTimeS(planned[k - 1]!).toFixed(1)} s the arc needs`,
      remedy: 'Check path and travel speed in the plan',
    });
  });
}
