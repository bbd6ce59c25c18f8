import { type ThermalHistory, tempAt } from '../history';
import type { Doubt, Exposure } from './exposure';

/**
 * The exposure with every way of every doubt told at the times of its history: what is edited, thinned or recorded has one
 * clock. Between samples straight lines; a way that ends before the history stays as it ended.
 */
export function onOneClock(exposure: Exposure): Exposure {
  const { history, doubts } = exposure;
  return {
    ...exposure,
    doubts: doubts.map((doubt): Doubt => {
      if (!('runsS' in doubt) || !doubt.runsS) return doubt;
      const { runsS, ...rest } = doubt;
      const told = (shiftK: Float64Array, timeS: Float64Array): Float64Array => {
        const own: ThermalHistory = { timeS, tempC: history.tempC.map((temp, i) => temp + shiftK[i]!) };
        const [first, last] = [timeS[0]!, timeS[timeS.length - 1]!];
        return history.tempC.map(
          (temp, i) => tempAt(own, Math.min(last, Math.max(first, history.timeS[i]!))) - temp,
        );
      };
      return { ...rest, runsK: rest.runsK.map((shiftK, run) => told(shiftK, runsS[run]!)) };
    }),
  };
}
