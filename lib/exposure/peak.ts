import { checkHistory, type ThermalHistory } from '../history';

/** Hottest recorded sample of a history. */
export interface Peak {
  readonly tempC: number;
  /** When it was first reached, s. */
  readonly timeS: number;
}

/**
 * The hottest sample of a history; the first of equals. What the logger's interval may have missed beyond
 * it is `samplingLoss`.
 * @throws TemperbookError on a history that breaks its promises.
 */
export function peak(history: ThermalHistory): Peak {
  checkHistory(history);
  const { timeS, tempC } = history;
  let hottest = 0;
  for (let i = 1; i < tempC.length; i++) if (tempC[i]! > tempC[hottest]!) hottest = i;
  return { tempC: tempC[hottest]!, timeS: timeS[hottest]! };
}
