import { type AlloyCard, findTemper, loadAlloy } from '../alloy';
import { isothermal } from '../history';
import {
  type KeptMap,
  type PrecipitateModel,
  type StrengthMapOptions,
  strengthMap,
  withLowerLine,
} from '../kinetics';
import { TemperbookError } from '../quantity';
import { HOTTEST_C, PRECIPITATE_SETS, precipitateInRange } from './precipitateLines';

/** Its maps are coarser: a soak row is one run, a weld-like point is one too, and it changes smoothly. */
const GRID = { soak: { rows: 36, columns: 60 }, 'weld-like': { rows: 18, columns: 16 } } as const;

/**
 * The strength map with the band that `judge` would give metal as read by a perfect probe: the low line of the
 * softening model, or what the precipitate model says where that is lower and the model in range. The second is
 * what a short hot heat takes from an under-aged casting before a longer one gives it back (retrogression).
 * @throws TemperbookError as `strengthMap`.
 */
export function judgedMap(options: Omit<StrengthMapOptions, 'model'>): KeptMap {
  const { kind = 'soak' } = options;
  const card = loadAlloy(options.alloy);
  const temper = findTemper(card, options.temper).name;
  const map = strengthMap(options);
  const lowC = map.tempC[0]!;
  const highC = Math.min(HOTTEST_C, map.tempC[map.tempC.length - 1]!);
  if (highC <= lowC) return map;
  return precipitateModels(card, temper)
    .map(lowestSoFar)
    .reduce(
      (lower, model) =>
        withLowerLine(lower, strengthMap({ ...options, ...GRID[kind], model, tempC: [lowC, highC] })),
      map,
    );
}

/** Quicker than the model's own: good to 3.5 % of the yield on A356, to 1 % on 6061. */
const RESOLUTION = { toleranceMPa: 0.1, classWidth: 0.06 };

/** A model that does not count on what came back, as `judge`. */
function lowestSoFar(model: PrecipitateModel): PrecipitateModel {
  return {
    ...model,
    advance: (state, history) => {
      const trajectory = model.advance(state, history);
      let least = Number.POSITIVE_INFINITY;
      const yieldKeptFraction = trajectory.yieldKeptFraction.map((kept) => {
        least = Math.min(least, kept);
        return least;
      });
      return { ...trajectory, yieldKeptFraction };
    },
  };
}

/** A second on the shelf: brings out what a model has to say against the alloy itself. */
const NO_HEAT = isothermal(20, 1);

function precipitateModels(card: AlloyCard, temper: string): PrecipitateModel[] {
  return PRECIPITATE_SETS.flatMap((set) => {
    try {
      const { model } = precipitateInRange(card, temper, { parameters: set, resolution: RESOLUTION });
      return model.advance(model.start(temper), NO_HEAT).remarks.length > 0 ? [] : [model];
    } catch (error) {
      if (error instanceof TemperbookError) return [];
      throw error;
    }
  });
}
