import { requireNumber, TemperbookError } from '../../../quantity';
import type { PlanMoment, PlatePlan } from './platePlan';

/** Checks when chills are put on and taken off and when the air changes. @throws TemperbookError */
export function checkMoments({ contacts = [], airChanges = [], passes }: PlatePlan): void {
  for (const [i, { name = `contact ${i + 1}`, putOn, takenOff }] of contacts.entries()) {
    if (putOn) checkMoment(putOn, `putOn of ${name}`, passes);
    if (takenOff) checkMoment(takenOff, `takenOff of ${name}`, passes);
  }
  for (const [i, { from, convectionWPerM2K, ambientC }] of airChanges.entries()) {
    const name = `change ${i + 1} of the air`;
    checkMoment(from, name, passes);
    if (convectionWPerM2K === undefined && ambientC === undefined)
      throw new TemperbookError(`The ${name} changes nothing`, { expected: 'convectionWPerM2K or ambientC' });
    if (convectionWPerM2K !== undefined)
      requireNumber(convectionWPerM2K, `convectionWPerM2K of ${name}`, { low: 0, high: 1e5 });
    if (ambientC !== undefined) requireNumber(ambientC, `ambientC of ${name}`, { low: -100, high: 2000 });
  }
}

function checkMoment(moment: PlanMoment, what: string, passes: PlatePlan['passes']): void {
  if ((moment.atS === undefined) === (moment.pass === undefined))
    throw new TemperbookError(
      `The moment of ${what} is said ${moment.atS === undefined ? 'in no' : 'in two'} way`,
      {
        expected: '{ atS } or { pass, when, afterS }',
      },
    );
  if (moment.atS !== undefined) {
    requireNumber(moment.atS, `atS of ${what}`, { low: 0, high: 1e7 });
    return;
  }
  requireNumber(moment.afterS ?? 0, `afterS of ${what}`, { low: 0, high: 1e7 });
  const names = passes.map(({ name }, i) => name ?? `pass ${i + 1}`);
  if (!names.includes(moment.pass))
    throw new TemperbookError(`The moment of ${what} names a pass that the plan does not have`, {
      found: `"${moment.pass}"`,
      expected: `one of ${names.map((name) => `"${name}"`).join(', ')}`,
    });
}
