import { type AlloyCard, loadAlloy } from '../../alloy';
import { fahrenheitToCelsius, type HowKnown } from '../../quantity';

/** A heating that the trade does on purpose, to find on a strength map. */
export interface Practice {
  readonly label: string;
  readonly tempC: number;
  /** Shortest and longest, s. */
  readonly timeS: readonly [number, number];
  readonly source: string;
  readonly known: HowKnown;
}

/** Several heatings that practice treats as one limit: the reheat limits of hot forming. */
export interface PracticeLine {
  readonly label: string;
  readonly points: readonly { readonly tempC: number; readonly timeS: number }[];
  readonly source: string;
  readonly known: HowKnown;
}

/** Ready for a map figure: limits as lines across it, single practices, and those that belong together. */
export interface Practices {
  readonly limits: readonly { readonly name: string; readonly limitC: number }[];
  readonly points: readonly Practice[];
  readonly lines: readonly PracticeLine[];
}

const MINUTE_S = 60;
const HOUR_S = 3600;

const COATINGS: readonly Practice[] = [
  {
    label: 'paint bake',
    tempC: 180,
    timeS: [20 * MINUTE_S, 30 * MINUTE_S],
    source: 'common practice, no source: 180 °C for half an hour is what baking tests assume',
    known: 'practice',
  },
  {
    label: 'powder-coat cure',
    tempC: 200,
    timeS: [10 * MINUTE_S, 20 * MINUTE_S],
    source: 'common practice, no source',
    known: 'practice',
  },
];

const REAGEING_AFTER_WELDING =
  'F. Armao, Aluminum Workshop, The Fabricator: 400 °F 1 h or 350 °F 4 h after welding 6061-T6';

const FOR_6061: Pick<Practices, 'points' | 'lines'> = {
  points: [
    {
      label: 'age again after welding',
      tempC: fahrenheitToCelsius(400),
      timeS: [HOUR_S, HOUR_S],
      source: REAGEING_AFTER_WELDING,
      known: 'seen',
    },
    {
      label: 'age again after welding',
      tempC: fahrenheitToCelsius(350),
      timeS: [4 * HOUR_S, 4 * HOUR_S],
      source: REAGEING_AFTER_WELDING,
      known: 'seen',
    },
  ],
  lines: [
    {
      label: 'reheat limits, hot forming',
      points: [
        { tempC: fahrenheitToCelsius(375), timeS: 1.5 * HOUR_S },
        { tempC: fahrenheitToCelsius(400), timeS: 0.5 * HOUR_S },
        { tempC: fahrenheitToCelsius(425), timeS: 0.25 * HOUR_S },
        { tempC: fahrenheitToCelsius(450), timeS: 5 * MINUTE_S },
      ],
      source: 'hot-forming reheat limits of 6061-T6, quoted second-hand from a producer; 375 °F is 1 to 2 h',
      known: 'practice',
    },
  ],
};

/**
 * What the trade does with an alloy, as marks for a map: the limits of its card, the ageing of its tempers (those
 * of one temperature as one mark), coating, ageing after welding, reheat limits.
 */
export function practicesFor(alloy: AlloyCard | string): Practices {
  const card = loadAlloy(alloy);
  const own = card.designation === '6061' ? FOR_6061 : { points: [], lines: [] };
  return {
    limits: card.limits.map(({ name, limitC }) => ({ name, limitC: limitC.value })),
    points: [...ageingPractices(card), ...COATINGS, ...own.points],
    lines: own.lines,
  };
}

function ageingPractices({ tempers }: AlloyCard): Practice[] {
  const byTemp = new Map<number, Practice>();
  for (const [temper, { ageing }] of Object.entries(tempers)) {
    if (!ageing) continue;
    const { tempC, timeS } = ageing;
    const same = byTemp.get(tempC.value);
    byTemp.set(tempC.value, {
      label: same ? `${same.label}, ${temper}` : `ageing to ${temper}`,
      tempC: tempC.value,
      timeS: [Math.min(timeS.low, same?.timeS[0] ?? timeS.low), Math.max(timeS.high, same?.timeS[1] ?? 0)],
      source: timeS.source,
      known: timeS.known,
    });
  }
  return [...byTemp.values()];
}
