import type { HeatStep, HeatsOptions, HeatsVerdict } from './heatsVerdict';
import { judgeHeats } from './judgeHeats';
import { mixedAnswer, type OpenVerdict } from './mixedAnswer';

/** What may be said of the part besides its heats. */
export interface OpenOptions extends Omit<HeatsOptions, 'alloy' | 'temper' | 'readings'> {
  /** Brinell 10/500 on metal of the part that saw no heat: rules tempers out. */
  readonly coldBrinell?: number;
}

/**
 * What heats did to a part whose metal is not known ("like 356, temper not known"): `judgeHeats` for every metal it may be,
 * and the word that holds for each (`mixedAnswer`).
 * @throws TemperbookError as `mixedAnswer` and `judgeHeats`.
 */
export function judgeOpenMetal(
  steps: HeatStep | readonly HeatStep[],
  metal: string,
  { coldBrinell, ...options }: OpenOptions,
): OpenVerdict<HeatsVerdict> {
  return mixedAnswer(metal, coldBrinell, ({ card, temper }) =>
    judgeHeats(steps, { ...options, alloy: card, temper, countLeft: false }),
  );
}
