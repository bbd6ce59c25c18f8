import type { ThermalHistory } from '../history';
import { type Judged, judged } from '../quantity';
import type { OverageingOptions } from './overageing/overageingModel';
import { softeningModel } from './softeningModel';
import type { AlloyLike, RangeRemark, StartState } from './temperModel';

/** The end of `softeningModel` for one history: yield kept and the three parts, ready to judge. */
export interface Softening {
  readonly yieldKeptFraction: Judged;
  readonly yieldMPa: Judged;
  readonly dissolvedFraction: Judged;
  readonly coarsenedFraction: number;
  readonly survivingFraction: number;
  readonly remarks: readonly RangeRemark[];
}

/** Softening of a part by one history, from a temper or a measured yield; see `softeningModel`. */
export function combinedSoftening(
  history: ThermalHistory,
  alloy: AlloyLike,
  from: StartState,
  options: OverageingOptions = {},
): Softening {
  const model = softeningModel(alloy, options);
  const { state, ...track } = model.advance(model.start(from), history);
  const end = track.timeS.length - 1;
  const { startYieldMPa } = state.overageing;
  const kept = track.yieldKeptFraction[end]!;
  const low = track.yieldKeptLow[end]!;
  const high = track.yieldKeptHigh[end]!;
  const x = state.dissolved;
  const because = [
    'Over-ageing curve for what did not dissolve, iso-kinetic rule for what did.',
    'Band: activation energy, clock and shape of the curve, time constant of dissolution.',
  ];
  return {
    yieldKeptFraction: judged(kept, [low, high], '1', because),
    yieldMPa: judged(kept * startYieldMPa, [low * startYieldMPa, high * startYieldMPa], 'MPa', because),
    dissolvedFraction: judged(x.nominal, [x.low, x.high], '1', [because[1]!]),
    coarsenedFraction: track.coarsenedFraction[end]!,
    survivingFraction: track.survivingFraction[end]!,
    remarks: track.remarks,
  };
}
