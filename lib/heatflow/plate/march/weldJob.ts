import { TemperbookError } from '../../../quantity';
import type { PointCells } from '../model/pointCells';
import type { PlatePassResult } from '../outcome/plateResult';
import type { PlanMoment, PlatePlan } from '../plan/platePlan';
import { burningArc, layFiller } from './arcSource';
import { readPoint } from './plateRecorder';
import type { PlateRun } from './plateRun';

/** Runs every pass of a plan, each after its wait, and the cooling at the end. `points` are the plan's probes. */
export function weldJob(
  plan: PlatePlan,
  run: PlateRun,
  points: readonly PointCells[],
  longestWaitS: number,
): PlatePassResult[] {
  const schedule = scheduleOf(plan, run);
  schedule.begin();
  const passes = plan.passes.map((pass, i): PlatePassResult => {
    const name = pass.name ?? `pass ${i + 1}`;
    const interpassC = waitForPass(plan, run, i, longestWaitS, points);
    const startS = run.timeS;
    const bulkStartC = run.stepper.bulkC();
    const arcBefore = run.stepper.account.arcJ;
    run.doing = `pass ${i + 1} of ${plan.passes.length}`;
    schedule.passed(name, 'start');
    const arc = burningArc(pass);
    if (pass.fillerMm2) run.stepper.addMetal(layFiller(run.model, arc, pass.fillerMm2));
    run.weld(arc);
    const bodyC = run.stepper.meanC();
    schedule.passed(name, 'end');
    return {
      name,
      startS,
      endS: run.timeS,
      bulkStartC,
      bodyC,
      ...(interpassC === undefined ? {} : { interpassC }),
      heatJ: run.stepper.account.arcJ - arcBefore,
    };
  });
  coolDown(plan, run, longestWaitS);
  return passes;
}

/** What the plan puts on, takes off and changes, each at its moment. */
function scheduleOf({ contacts = [], airChanges = [] }: PlatePlan, run: PlateRun) {
  const acts: { readonly moment: PlanMoment; readonly act: () => void }[] = [
    ...contacts.flatMap(({ putOn, takenOff }, k) => [
      ...(putOn ? [{ moment: putOn, act: () => run.stepper.turnContact(k, true) }] : []),
      ...(takenOff ? [{ moment: takenOff, act: () => run.stepper.turnContact(k, false) }] : []),
    ]),
    ...airChanges.map(({ from, ...air }) => ({ moment: from, act: () => run.stepper.changeAir(air) })),
  ];
  return {
    begin: () => {
      for (const { moment, act } of acts) if (moment.atS !== undefined) run.at(moment.atS, act);
    },
    passed: (pass: string, when: 'start' | 'end') => {
      for (const { moment, act } of acts)
        if (moment.pass === pass && moment.when === when) run.at(run.timeS + (moment.afterS ?? 0), act);
    },
  };
}

/** Waits as the pass asks; returns the reading of its interpass probe, if it has one. */
function waitForPass(
  plan: PlatePlan,
  run: PlateRun,
  index: number,
  longestWaitS: number,
  points: readonly PointCells[],
): number | undefined {
  const { waitS = 0, interpassC, atProbe } = plan.passes[index]!.startAfter ?? {};
  run.doing = `waiting before pass ${index + 1}`;
  run.cool(run.timeS + waitS);
  if (interpassC === undefined) return undefined;
  const point = points[plan.probes.findIndex((probe) => probe.name === atProbe)]!;
  const read = (tempC: Float64Array) => readPoint(point, tempC);
  const isReady = index === 0 && read(run.stepper.nowC.values) <= interpassC;
  run.doing = `waiting for ${atProbe} before pass ${index + 1}`;
  if (!isReady && !run.cool(run.timeS + longestWaitS, { limitC: interpassC, read }))
    throw new TemperbookError(`${plan.passes[index]!.name ?? `Pass ${index + 1}`} would wait for ever`, {
      found: `probe "${atProbe}" at ${read(run.stepper.nowC.values).toFixed(1)} °C after ${longestWaitS} s`,
      expected: `${interpassC} °C or less`,
      remedy: 'Raise the interpass limit, let the part lose more heat, or allow a longer wait',
    });
  return read(run.stepper.nowC.values);
}

function coolDown({ until }: PlatePlan, run: PlateRun, longestWaitS: number): void {
  run.doing = 'cooling';
  if ('coolForS' in until) {
    run.cool(run.timeS + until.coolForS);
    return;
  }
  const limitC = until.coolToC;
  const read = (tempC: Float64Array) => run.hottest(tempC);
  if (read(run.stepper.nowC.values) <= limitC) return;
  if (!run.cool(run.timeS + longestWaitS, { limitC, read }))
    throw new TemperbookError('The part does not cool to the temperature asked for', {
      found: `${read(run.stepper.nowC.values).toFixed(1)} °C after ${longestWaitS} s`,
      expected: `${limitC} °C or less`,
      remedy: 'Give a time with coolForS, raise coolToC, or allow a longer wait',
    });
}
