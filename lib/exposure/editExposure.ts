import { type ThermalHistory, tempAt } from '../history';
import type { Doubt, Exposure } from './exposure';
import { onOneClock } from './onOneClock';

/**
 * The exposure after an edit of its history (cut at a limit, a longer wait, one pass more): what the record left
 * open before the edit it leaves open after it. Each doubt is edited along: its new shift is the edited hotter
 * history less the edited history. What was seen of it holds for the heat as it ran, so it weighs no other.
 */
export function editExposure(
  exposure: Exposure,
  edit: (history: ThermalHistory) => ThermalHistory,
): Exposure {
  const { history, doubts, blind, because } = onOneClock(exposure);
  const edited = edit(history);
  const shifted = (shiftK: Float64Array): Float64Array => {
    const hotter = edit({ ...history, tempC: history.tempC.map((temp, i) => temp + shiftK[i]!) });
    const { timeS } = hotter;
    return edited.tempC.map((temp, i) => {
      const at = Math.min(timeS[timeS.length - 1]!, Math.max(timeS[0]!, edited.timeS[i]!));
      return tempAt(hotter, at) - temp;
    });
  };
  return {
    history: edited,
    doubts: doubts.map(
      (doubt): Doubt =>
        'runsK' in doubt
          ? { ...doubt, runsK: doubt.runsK.map(shifted) }
          : { ...doubt, shiftK: shifted(doubt.shiftK) },
    ),
    blind,
    because,
  };
}
