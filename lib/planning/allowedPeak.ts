import { loadAlloy } from '../alloy';
import { peak } from '../exposure';
import { shiftTemperature, type ThermalHistory } from '../history';
import { type SofteningTrajectory, softeningModel } from '../kinetics';
import { formatPercent, type Judged, judged, TemperbookError } from '../quantity';
import { DEFAULT_ALLOWANCE, type JudgeOptions, precipitateLines, precipitateSets } from '../strength';

/** Shares of the way up to melting that are tried before the answer is bisected. */
const STEPS = 60;
const BISECTIONS = 20;

/**
 * How hot this metal may get in this job: the history with its rise above ambient scaled up or down until the yield
 * kept falls to 1 − allowance. A peak limit made for the times of the job, where a shop rule knows none. `nominal`
 * by the softening model, `high` by the high line of its band; `low` by its low line and by what the precipitate
 * model says, as in `judge`: the hottest up to which none of them loses more. Never above the solidus.
 * @throws TemperbookError as `judge`, and for a history that never rises above ambient.
 */
export function allowedPeak(
  history: ThermalHistory,
  {
    alloy,
    temper,
    allowanceFraction = DEFAULT_ALLOWANCE,
    ambientC,
  }: Pick<JudgeOptions, 'alloy' | 'temper' | 'allowanceFraction'> & { readonly ambientC: number },
): Judged {
  const card = loadAlloy(alloy);
  const topC = peak(history).tempC;
  const riseK = topC - ambientC;
  if (!(riseK > 0))
    throw new TemperbookError('This metal is not heated', {
      found: `a peak of ${topC.toFixed(1)} °C`,
      expected: `more than the ${ambientC} °C around it`,
    });
  const model = softeningModel(card);
  const start = model.start(temper);
  const meltK = card.thermal.solidusC.value - ambientC;
  const needed = 1 - allowanceFraction;
  type Line = (end: SofteningTrajectory) => Float64Array;
  const scaledTo = (toK: number): ThermalHistory =>
    shiftTemperature(history, (tempC) => (toK / riseK - 1) * Math.max(0, tempC - ambientC));
  const holdsBy = (line: Line) => (toK: number) => {
    const kept = line(model.advance(start, scaledTo(toK)));
    return kept[kept.length - 1]! >= needed;
  };
  const lowHolds = holdsBy((end) => end.yieldKeptLow);
  const sets = precipitateSets(card, temper);
  const particlesHold = (toK: number): boolean =>
    precipitateLines(sets, scaledTo(toK)).every(
      ({ yieldKeptFraction: kept }) => kept === undefined || kept.low >= needed,
    );
  const hottest = (holds: (toK: number) => boolean): number => {
    let low = 0;
    while (low < meltK && holds(low + meltK / STEPS)) low += meltK / STEPS;
    let high = Math.min(meltK, low + meltK / STEPS);
    for (let k = 0; k < BISECTIONS; k++) {
      const middle = (low + high) / 2;
      if (holds(middle)) low = middle;
      else high = middle;
    }
    return ambientC + Math.min(meltK, low);
  };
  return judged(
    hottest(holdsBy((end) => end.yieldKeptFraction)),
    [hottest((toK) => lowHolds(toK) && particlesHold(toK)), hottest(holdsBy((end) => end.yieldKeptHigh))],
    '°C',
    [
      `Peak at which a job of this course leaves ${formatPercent(needed)} of the yield of ${card.designation}-${temper}, just after cooling.`,
    ],
  );
}
