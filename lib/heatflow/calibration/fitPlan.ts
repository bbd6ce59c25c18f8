import { judged } from '../../quantity';
import type { PlatePlan } from '../plate';
import { calibrateToLog } from './calibrateToLog';
import type { Calibration, CalibrationChannel, CalibrationUnknown, HeatModel } from './calibration';
import { alikeGroups, alikeSentence } from './calibrationWarnings';
import { fitDraws } from './fitDraws';
import type { PlanFit, PlanFitOptions } from './planFit';
import { nuisanceKnobs, type PlanKnob, type PlanKnobs, planWith } from './planKnobs';
import { passesAsLogged, plateHeatModel } from './plateHeatModel';

/** Standard errors between the median and the 95 of 100 of a normal distribution. */
const TO_95 = 1.645;
/** Unknowns that stand in for one another are told apart by small differences: the solver's noise must stay below. */
const STEP_TOLERANCE_K = 0.3;
/** Bounds of a nuisance unknown, in standard errors of what was known of it. */
const FARTHEST = 4;

/**
 * Fits a plan to logged channels: the share of the arc's power that entered (`power`, a factor on the planned one),
 * the air and the clamps, with conductivity, heat capacity and travel speed as unknowns nobody asks for, held by the
 * bands of the alloy cards. So the standard errors of what is asked for hold what the plan does not know for sure.
 *
 * For a fit, cells of 2 mm or more are usually fine: give a plan with such. Every unknown costs a run of the solver
 * for each step of the fit.
 * @throws TemperbookError as `calibrateToLog` and `solvePlate` do.
 */
export function fitPlan(
  channels: readonly CalibrationChannel[],
  plan: PlatePlan,
  options: PlanFitOptions = {},
): PlanFit {
  const { probeOf = {}, film = true, contact = (plan.contacts ?? []).length > 0, more = {} } = options;
  const nuisance = options.nuisance ?? nuisanceKnobs(plan);
  const heat = nuisance.find(({ name }) => name.startsWith(HEAT));
  const parameters: Record<string, CalibrationUnknown> = {
    power: { start: 1, low: 0.2, high: 3, label: 'arc efficiency' },
    ...(film ? { film: { ...factor(1, 0.5), label: 'loss to the air' } } : {}),
    ...(contact ? { contact: { start: 1, low: 0.02, high: 20, label: 'conductance of the clamps' } } : {}),
    ...more,
    ...Object.fromEntries(
      nuisance
        .filter((knob) => knob !== heat)
        .map((knob) => {
          const shared = heat && isScaled(knob.name) ? spreadOf(heat) : 0;
          const unknown = factor(knob.nominal, Math.hypot(spreadOf(knob), shared));
          return [knob.name, { ...unknown, label: knob.label, isNuisance: true }];
        }),
    ),
  };
  const atHeat: PlanKnobs = heat ? { [heat.name]: heat.nominal } : {};
  const withValues = (values: PlanKnobs): PlatePlan =>
    Object.entries(more).reduce(
      (changed, [name, unknown]) => unknown.apply(changed, values[name]!),
      planWith(plan, values),
    );
  const modelOn = (cells: number): HeatModel<string> =>
    plateHeatModel<string>(
      channels.map(({ name }) => probeOf[name] ?? name),
      (values, logged) => {
        const job = withValues({ ...values, ...atHeat });
        const cut = cells === 1 ? job : { ...job, cellMm: cells * job.cellMm };
        return logged.length === cut.passes.length && logged.length > 1
          ? { ...cut, passes: passesAsLogged(cut.passes, logged) }
          : cut;
      },
      options.toleranceK ?? STEP_TOLERANCE_K,
    );
  const { readingsPerChannel, onStep } = options;
  const rest = {
    ...(readingsPerChannel === undefined ? {} : { readingsPerChannel }),
    ...(onStep ? { onStep } : {}),
  };
  const found = calibrateToLog(channels, modelOn(1), { parameters, finer: modelOn(0.5), ...rest });
  const labelOf = (name: string) => parameters[name]?.label ?? name;
  const fit = heat ? withHeat(found, heat, labelOf) : found;
  const fitted = Object.fromEntries(fit.names.map((name) => [name, fit.values[name]!.nominal]));
  return {
    ...fit,
    planFor: (values = fitted) => {
      const job = withValues(values);
      return fit.passes.length === job.passes.length && fit.passes.length > 1
        ? { ...job, passes: passesAsLogged(job.passes, fit.passes) }
        : job;
    },
    draws: (count, seed) => fitDraws(fit, count, seed, heat ? beyond(parameters) : parameters),
  };
}

/** Factors that change no temperature when all are changed together with the heat capacity. */
const isScaled = (name: string): boolean =>
  name === 'power' || name === 'film' || name === 'contact' || name.startsWith('conductivity');

/**
 * The fit with the heat capacity it held fixed set free. Power, conductivities and losses over the heat capacity are all
 * that temperatures show (but for radiation, which is small here): c ∂T/∂t = ∇·(k ∇T) + q. So what the log says of them
 * is said at a given heat capacity, and its own uncertainty is carried to them as it stands.
 */
function withHeat(
  fit: Calibration<string>,
  heat: PlanKnob,
  labelOf: (name: string) => string,
): Calibration<string> {
  const names = [...fit.names, heat.name];
  const nominal = (name: string) => (name === heat.name ? heat.nominal : fit.values[name]!.nominal);
  const carried = (name: string) =>
    name === heat.name
      ? spreadOf(heat)
      : isScaled(name)
        ? (nominal(name) * spreadOf(heat)) / heat.nominal
        : 0;
  const own = (name: string) => fit.standardErrors[name] ?? 0;
  const whole = (name: string) => Math.hypot(own(name), carried(name));
  const correlation = names.map((a, i) =>
    names.map((b, j) => {
      if (i === j) return 1;
      const [ea, eb] = [whole(a), whole(b)];
      if (!Number.isFinite(ea) || !Number.isFinite(eb)) return 0;
      const found = (fit.correlation[i]?.[j] ?? 0) * own(a) * own(b);
      return (found + carried(a) * carried(b)) / (ea * eb);
    }),
  );
  const because = fit.values[fit.names[0]!]!.because;
  const values = Object.fromEntries(
    names.map((name) => {
      const unit = name === heat.name ? '1' : fit.values[name]!.unit;
      const [value, error] = [nominal(name), whole(name)];
      return [name, judged(value, [Math.max(0, value - 2 * error), value + 2 * error], unit, because)];
    }),
  );
  const sentences = (of: Pick<Calibration<string>, 'names' | 'correlation'>) =>
    alikeGroups(of.names, of.correlation).map((alike) => alikeSentence(alike.map(labelOf)));
  const said = sentences(fit);
  return {
    ...fit,
    names,
    values,
    standardErrors: Object.fromEntries(names.map((name) => [name, whole(name)])),
    correlation,
    // What the log cannot tell apart is said once, the heat capacity included.
    warnings: [
      ...fit.warnings.filter((warning) => !said.includes(warning)),
      ...sentences({ names, correlation }),
    ],
  };
}

const HEAT = 'heat capacity';

/** Bounds of the fit are bounds at one heat capacity: draws go as far beyond as the rest of the band. */
const beyond = (
  parameters: Record<string, CalibrationUnknown>,
): Record<string, { low: number; high: number }> =>
  Object.fromEntries(
    Object.entries(parameters).map(([name, { low, high }]) =>
      isScaled(name) ? [name, { low: Math.min(low, 0.8 * low), high: 1.2 * high }] : [name, { low, high }],
    ),
  );

const spreadOf = ({ low, high }: PlanKnob): number => (high - low) / 2 / TO_95;

function factor(nominal: number, standardError: number): CalibrationUnknown {
  return {
    start: nominal,
    low: Math.max(0.05, nominal - FARTHEST * standardError),
    high: nominal + FARTHEST * standardError,
    prior: { value: nominal, standardError },
  };
}
