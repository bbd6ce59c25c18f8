import { loadAlloy, shopLimit } from '../alloy';
import type { PlatePlan } from '../heatflow';
import type { PlanMetal } from '../planning';
import { TemperbookError } from '../quantity';
import { type LotWeights, measuredYield } from '../strength';
import type { Attachment, ToleranceClass } from '../thermocouple';
import type { Job, JobMetal } from './job';
import { lotsOfJob } from './jobOptions';

/** The plan of a job with what planning needs to know of it. */
export interface PlannedJob {
  readonly plan: PlatePlan;
  /** Every metal the plan names in the temper that the job says, that of the part first. */
  readonly metals: readonly (PlanMetal & { readonly alloy: string })[];
  /** The shop's limit for the metal of the part, else the first limit of its card, °C. */
  readonly limitC: number;
  readonly allowanceFraction?: number;
  /** What coupons or a chart say of the lots of metal in the part. */
  readonly lots?: readonly LotWeights[];
  readonly attachment?: Attachment;
  readonly thermocouple?: ToleranceClass;
}

/**
 * The plan of a job, its metals with their tempers, its limit and how probes are held on, for the questions of `planning`.
 * A metal's temper is the first that the job says of it: of the part, of a probe, of the shop's probes.
 * @throws TemperbookError for a job without a plan or without its metal, for a metal of the plan whose temper nobody said,
 * and as `measuredYield` and `lotsOfJob`.
 */
export function plannedJob(job: Job): PlannedJob {
  const { file, plan, limits, measuring } = job;
  if (!plan)
    throw new TemperbookError('The job has no plan of the weld', {
      file,
      expected: 'the key plan with the path of the plan, such as "plan": "my-plan.json"',
      remedy: 'data/demo/mast-foot-two-probes-plan.json shows what a plan looks like',
    });
  const inPlan = [
    ...new Set(
      plan.part.flatMap(({ metal, thicknessMm }) =>
        typeof metal === 'string' && thicknessMm > 0 ? [loadAlloy(metal).designation] : [],
      ),
    ),
  ];
  const said = saidMetals(job);
  const metals = said
    .filter(({ alloy }, k) => inPlan.includes(alloy) && said.findIndex((one) => one.alloy === alloy) === k)
    .map(({ alloy, temper, ...measured }) => {
      const measuredYieldMPa = measuredYield(measured, loadAlloy(alloy));
      return { alloy, temper, ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }) };
    });
  const open = inPlan.filter((alloy) => !metals.some((one) => one.alloy === alloy));
  if (open.length > 0 || metals.length === 0)
    throw new TemperbookError('The job does not say the temper of a metal of its plan', {
      file,
      found: `${inPlan.join(' and ') || 'no alloy by name'} in the plan, ${said.map(({ alloy, temper }) => `${alloy}-${temper}`).join(' and ') || 'no metal'} in the job`,
      expected: `the temper of ${open.join(' and ') || 'a metal'}, in the key metal or at a probe that sits on it`,
    });
  const { limits: own } = loadAlloy(metals[0]!.alloy);
  const { attachment, thermocouple } = measuring;
  const { allowanceFraction } = limits;
  const lots = lotsOfJob(job);
  return {
    plan,
    metals,
    limitC:
      limits.limitC === undefined
        ? own.find(({ applies }) => applies === 'peak')!.limitC.value
        : shopLimit(limits.limitC),
    ...(allowanceFraction === undefined ? {} : { allowanceFraction }),
    ...(lots ? { lots } : {}),
    ...(attachment === undefined ? {} : { attachment }),
    ...(thermocouple === undefined ? {} : { thermocouple }),
  };
}

/** All metals that the job says with their tempers, as their cards are called. */
function saidMetals({ metal, probes, named }: Job) {
  const all: readonly (JobMetal | undefined)[] = [
    metal,
    ...[...Object.values(probes), ...named].map((probe) => probe.metal),
  ];
  return all.flatMap((one) =>
    one?.alloy !== undefined && one.temper !== undefined
      ? [{ ...one, alloy: loadAlloy(one.alloy).designation, temper: one.temper }]
      : [],
  );
}
