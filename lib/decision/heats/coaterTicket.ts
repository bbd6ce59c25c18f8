import { formatDuration, formatPercent, formatTemp } from '../../quantity';
import { exposureBudget } from '../budget';
import { CAUTIONS } from '../cautions';
import type { HeatsVerdict } from './heatsVerdict';

/** One page for the coater: heading and lines, in the order they are read. */
export interface CoaterTicket {
  readonly title: string;
  readonly sections: readonly { readonly heading: string; readonly lines: readonly string[] }[];
}

/** Metal temperatures that powders are cured at, °C (325 to 425 °F). */
const CURES_C = [163, 177, 191, 199, 204, 218];
/** Time is written down to what a coater can hold: whole minutes. */
const MINUTE_S = 60;

/**
 * A page that goes with the part to the coater: the metal temperature and the time that may not be exceeded, all bakes
 * together, how many bakes of the last heat are left, and what to send back. Times are those one may count on (95 of 100
 * draws, at the worst place) after all heats of the verdict; a part that is not cleared has none.
 * @param job lines that name the part: { part: 'HB-07', order: '…' }.
 */
export function coaterTicket(
  { word, places, left, allowanceFraction }: HeatsVerdict,
  job: Readonly<Record<string, string>> = {},
): CoaterTicket {
  const rows = CURES_C.map((tempC) => {
    const seconds = Math.min(
      ...places.map(
        ({ strength }) => exposureBudget(strength, { limitC: tempC, allowanceFraction }).timeAtLimitS.low,
      ),
    );
    return { tempC, seconds: Math.floor(seconds / MINUTE_S) * MINUTE_S };
  });
  const isCleared = word === 'kept' && rows.some(({ seconds }) => seconds > 0);
  const metals = [...new Set(places.map(({ alloy, temper }) => `${alloy}-${temper}`))].join(' and ');
  return {
    title: 'Coat this part without softening it',
    sections: [
      {
        heading: 'Part',
        lines: [
          ...Object.entries(job).map(([key, value]) => `${key}: ${value}`),
          `Metal: ${metals}, heat treated`,
        ],
      },
      {
        heading: 'Metal temperature and time that may not be exceeded',
        lines: isCleared
          ? [
              ...rows
                .filter(({ seconds }) => seconds > 0)
                .map(({ tempC, seconds }) => `${formatTemp(tempC)}: ${formatDuration(seconds)} in all`),
              'Each line uses up the whole: all bakes, strips and recoats together. Half of one line leaves half of another.',
              'The metal, not the air: measured on this part by a probe under a screw in its thinnest wall.',
            ]
          : ['None. This part is not cleared for any further heat: do not bake it, ask first.'],
      },
      {
        heading: 'Bakes',
        lines: [
          left?.sentence ?? 'No bake was asked about.',
          'No burn-off oven, no torch, no straightening with heat.',
        ],
      },
      {
        heading: 'Send back',
        lines: [
          'The chart or log of the metal probe, with set point, date and lot.',
          'How many bakes, strip and recoat included; how long the door was shut for each.',
          'When the oven was last surveyed, and to which class or tolerance.',
          'Anything that ran hotter or longer: tell us before you pack it, it is no reason to scrap it.',
        ],
      },
      {
        heading: 'Taken for this page',
        lines: [
          `The shop accepts a loss of ${formatPercent(allowanceFraction)} of the yield in all, earlier heats included.`,
          CAUTIONS[0]!,
        ],
      },
    ],
  };
}

/** The page as plain text of at most 100 columns. */
export function ticketText({ title, sections }: CoaterTicket): string {
  return `${[title, ...sections.flatMap(({ heading, lines }) => ['', heading, ...lines.map((line) => `  ${line}`)])].join('\n')}\n`;
}
