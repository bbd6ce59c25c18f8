import {
  escapeXml,
  finishPage,
  formatDuration,
  formatTemp,
  TemperbookError,
  type Units,
} from '../../quantity';
import { furnaceWindow } from '../routes/furnaceWindow';
import type { HoldStage, Schedule } from '../schedule/schedule';
import { leastSeconds } from '../schedule/soakHours';
import type { PartState } from './partState';
import type { RecoveryPlan, RecoveryWay } from './planRecovery';

/** One page for the heat treater: heading and lines, in the order they are read. */
export interface RecoveryTicket {
  readonly title: string;
  readonly sections: readonly { readonly heading: string; readonly lines: readonly string[] }[];
  /** Texts in it that people gave. */
  readonly names: readonly string[];
}

/**
 * What was welded with which filler, what to do, and what to send back.
 * @param job lines that name the part: { part: 'HB-07', order: '…' }.
 * @throws TemperbookError for a way that is forbidden, or that takes no furnace.
 */
export function recoveryTicket(
  { state, schedule, cautions }: RecoveryPlan,
  way: RecoveryWay,
  job: Readonly<Record<string, string>> = {},
): RecoveryTicket {
  if (way.permission === 'forbidden' || (way.kind !== 'age again' && way.kind !== 'full treatment'))
    throw new TemperbookError('There is no ticket for this way', {
      found: `${way.name}: ${way.permission}`,
      expected: 'an age or a full treatment that is not forbidden',
      ...(way.objections[0] ? { remedy: way.objections[0].what } : {}),
    });
  const metals = state.places.map(
    ({ name, material, alloy, temper, peakC, thicknessMm }) =>
      `${name}: ${[material, alloy, temper && `was ${temper}`].filter(Boolean).join(', ')}${thicknessMm === undefined ? '' : `, ${thicknessMm} mm`}${peakC === null ? '' : `, reached ${formatTemp(peakC)}`}`,
  );
  return {
    title: way.name,
    sections: [
      { heading: 'Part', lines: Object.entries(job).map(([key, value]) => `${key}: ${value}`) },
      {
        heading: 'What was welded',
        lines: [
          ...metals,
          `Filler: ${state.filler ?? 'not said'}`,
          `Solution treatments so far: ${state.solutionTreatments ?? 'not known'}`,
        ],
      },
      {
        heading: 'What to do',
        lines: [...doing(way, sharedBand(state, schedule)), `Edition: ${schedule.edition}`],
      },
      {
        heading: 'To be settled before it starts',
        lines: way.objections.map(({ what }) => what),
      },
      {
        heading: 'What to send back',
        lines: [
          'The chart, with sensors in the load: in the thickest casting, and where the furnace is coldest',
          ...(way.kind === 'full treatment'
            ? [
                'Times of door opening and of the last part under, and the water’s temperature before and after',
                'Time and place of straightening, and how long it stood before ageing',
              ]
            : []),
          `Hardness and conductivity at: ${state.places.map(({ name }) => name).join('; ')}`,
          'A test bar of the same melt and load, where there is one',
        ],
      },
      { heading: 'Care', lines: cautions },
    ].filter(({ lines }) => lines.length > 0),
    names: [...Object.values(job), ...state.places.map(({ name }) => name), state.filler ?? ''],
  };
}

function doing(way: RecoveryWay, { solution, quench, wait, ages }: RecoveryPlan['schedule']): string[] {
  if (way.kind === 'age again') return [`${way.name}, nothing else. No solution treatment, no quench.`];
  const band = (what: string, hold: HoldStage): string => {
    const { high } = leastSeconds(hold, undefined);
    const time = Number.isFinite(high)
      ? `at least ${formatDuration(high)}`
      : 'for the time the thickness asks for';
    const most = hold.mostH === null ? '' : `, at most ${formatDuration(hold.mostH * 3600)}`;
    return `${what}: every load sensor from ${formatTemp(hold.lowC)} to ${formatTemp(hold.highC)}, ${time}${most}, counted from the coldest`;
  };
  return [
    ...(solution ? [band('Solution', solution)] : []),
    ...(quench?.waterC
      ? [
          `Quench in water at ${quench.waterC.low === undefined ? '' : `${formatTemp(quench.waterC.low)} to `}${formatTemp(quench.waterC.high)}${quench.waterC.low === undefined ? ' or colder' : ''}, without delay`,
        ]
      : []),
    'Straighten at once, cold, before ageing',
    ...(wait ? [`Wait at least ${formatDuration(wait.leastH * 3600)} at room temperature`] : []),
    ...ages.map((age, k) => band(ages.length > 1 ? `Age, step ${k + 1}` : 'Age', age)),
  ];
}

/** The schedule with its solution band cut to what the metal joined to the casting takes too, where one exists. */
function sharedBand({ wroughtSchedule }: PartState, schedule: Schedule): Schedule {
  if (wroughtSchedule === undefined || !schedule.solution) return schedule;
  const { solution } = furnaceWindow([schedule, wroughtSchedule]);
  if (!solution || solution.lowC >= solution.highC) return schedule;
  const { lowC, highC, setC } = solution;
  return { ...schedule, solution: { ...schedule.solution, lowC, highC, setC } };
}

/** The ticket as plain text, for a mail. */
export function ticketText({ title, sections }: RecoveryTicket): string {
  return [
    title,
    ...sections.flatMap(({ heading, lines }) => ['', heading, ...lines.map((line) => `  - ${line}`)]),
    '',
  ].join('\n');
}

/** The ticket as one HTML page that needs nothing else and prints on one sheet. */
export function ticketHtml({ title, sections, names }: RecoveryTicket, units: Units = 'metric'): string {
  const body = sections
    .map(
      ({ heading, lines }) =>
        `<h2>${escapeXml(heading)}</h2><ul>${lines.map((line) => `<li>${escapeXml(line)}</li>`).join('')}</ul>`,
    )
    .join('\n');
  const page = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${escapeXml(title)}</title>
<style>
@page { margin: 12mm }
body { font: 13px/1.4 system-ui, "Liberation Sans", Arial, sans-serif; color: #1d2127; max-width: 44rem; margin: 1.5rem auto; padding: 0 1rem }
h1 { font-size: 1.3rem; margin: 0 0 .6rem } h2 { font-size: 1rem; margin: .9rem 0 .2rem } ul { margin: 0; padding-left: 1.2rem }
footer { margin-top: 1.6rem; border-top: 1px solid #b9bec6; padding-top: .5rem; display: flex; gap: 3rem }
footer span { flex: 1 }
@media print {
  body { margin: 0; padding: 0; max-width: none; font-size: 11px; line-height: 1.25 }
  .lines { columns: 2; column-gap: 8mm } h1 { margin-bottom: .3rem } h2 { font-size: .8rem; margin: .5rem 0 .1rem; break-after: avoid }
  li { break-inside: avoid } footer { margin-top: .8rem }
}
</style></head><body>
<main>
<h1>${escapeXml(title)}</h1>
<div class="lines">
${body}
</div>
</main>
<footer><span>Done by, date:</span><span>Checked by, date:</span></footer>
</body></html>
`;
  return finishPage(page, units, names);
}
