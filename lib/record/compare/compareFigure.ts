import { type Figure, scenarioFigure } from '../../figure';
import type { ThermalHistory } from '../../history';
import type { PlaceCompared } from './compareWelds';

/** Traces lie over each other from the moment they first pass this, °C: well above any shop, below any harm. */
const FROM_C = 60;

/** The traces of a place over each other, numbered, each from the moment it first passed 60 °C, against the limit. */
export function compareFigure({ name, welds }: PlaceCompared): Figure {
  const [limit] = welds[0]!.place.limits;
  return scenarioFigure(
    welds.map(({ weld, place }, k) => ({
      name: `${k + 1}: ${weld}`,
      history: fromHeat(place.exposure.history),
    })),
    {
      title: `${name}, from the first time above ${FROM_C} °C`,
      ...(limit ? { limits: [{ name: 'limit', limitC: limit.limitC }] } : {}),
    },
  );
}

function fromHeat(history: ThermalHistory): ThermalHistory {
  const { timeS, tempC } = history;
  const at = tempC.findIndex((temp) => temp >= FROM_C);
  const zeroS = timeS[Math.max(0, at)]!;
  return { ...history, timeS: timeS.map((t) => t - zeroS) };
}
