import { loadAlloy, meltsFromC } from '../../alloy';
import { formatTemp, formatTempSpan, type HowKnown } from '../../quantity';
import { AL_SI_MG_EUTECTIC_C, furnaceWindow } from '../routes/furnaceWindow';
import type { Schedule } from '../schedule/schedule';
import { fillerResponse } from './fillers';
import type { PartPlace, PartState } from './partState';

/** The ways there are, in the order of effort. */
export type WayKind = 'accept' | 'rest' | 'age again' | 'full treatment' | 'local treatment' | 'scrap';

/** A reason not to go a way, or not yet. */
export interface Objection {
  readonly weight: 'forbids' | 'ask first';
  readonly what: string;
  readonly source: string;
  readonly known: HowKnown;
}

/** Uniformity of a class 2 furnace, ± K. */
const CLASS_2_K = 6;
/** Re-treatments commonly done after the first solution treatment without approval. */
const USUAL_RETREATMENTS = 2;
/** Thinner walls and longer parts than these are asked about before a quench; judgement, no source gives a number. */
const THIN_MM = 4;
const LONG_MM = 500;

const GUIDE = 'F. Armao, Aluminum Workshop columns';
const forbids = (what: string, source: string, known: HowKnown): Objection => ({
  weight: 'forbids',
  what,
  source,
  known,
});
const ask = (
  what: string,
  source = 'common practice, no source',
  known: HowKnown = 'practice',
): Objection => ({
  weight: 'ask first',
  what,
  source,
  known,
});

/** Everything that stands against a way for this part; empty when nothing does. */
export function objectionsTo(kind: WayKind, state: PartState, schedule: Schedule): readonly Objection[] {
  if (kind === 'scrap') return [];
  if (kind === 'local treatment')
    return [
      forbids(
        'A torch or a heating mat makes a new soft ring at the edge of what it heats, nothing quenches it, and nobody can hold the band: the strength would be unknown everywhere',
        'common practice, no source',
        'practice',
      ),
    ];
  const general = [...pressure(state), ...melted(state)];
  if (kind === 'accept') return general;
  if (kind === 'rest') return general;
  return [
    ...general,
    ...(kind === 'age again' ? ageAgain(state, schedule) : fullTreatment(state, schedule)),
    ...fittings(kind, state),
  ];
}

function pressure({ holdsPressure }: PartState): Objection[] {
  if (holdsPressure === true)
    return [
      forbids(
        'The part holds pressure: its repair, its strength and any new heat treatment belong to the pressure code and its inspector, not to this kit',
        'common practice, no source',
        'practice',
      ),
    ];
  return holdsPressure === null ? [ask('Whether the part holds pressure is not said')] : [];
}

function melted({ places }: PartState): Objection[] {
  const metal = places.filter(({ material }) => material !== 'weld metal');
  const unknown = metal.filter(({ peakC }) => peakC === null);
  const found = metal.flatMap(({ name, alloy, peakC }): Objection[] => {
    const from = alloy ? meltsFromC(loadAlloy(alloy)) : AL_SI_MG_EUTECTIC_C;
    return peakC !== null && peakC >= from
      ? [
          forbids(
            `"${name}" reached ${formatTemp(peakC)}; from ${formatTemp(from)} its eutectic melts, and no heat treatment mends burnt metal`,
            'melting range of the alloy card',
            'memory',
          ),
        ]
      : [];
  });
  return unknown.length === 0
    ? found
    : [...found, ask(`How hot it became at ${listed(unknown)} is not known: it may have begun to melt`)];
}

function ageAgain({ filler, places, wroughtSchedule }: PartState, schedule: Schedule): Objection[] {
  const { toAgeing, because, source, known } = fillerResponse(filler);
  const welded = places.some(({ material }) => material === 'weld metal');
  const age = wroughtSchedule === undefined ? null : furnaceWindow([schedule, wroughtSchedule]).age;
  return [
    ...(age && !age.possible
      ? [ask(`One age for both metals: ${age.because}`, schedule.edition, 'memory')]
      : []),
    ...(toAgeing === 'harmed' ? [forbids(`Filler ${filler}: ${because}`, source, known)] : []),
    ...(toAgeing === 'no' && welded
      ? [ask(`Filler ${filler}: ${because}; the weld metal stays as it is`, source, known)]
      : []),
    ...(toAgeing === 'nobody knows'
      ? [ask(`How the weld metal takes ageing: ${because}`, source, known)]
      : []),
  ];
}

function fullTreatment(state: PartState, schedule: Schedule): Objection[] {
  return [...fillerToFull(state), ...earlierTreatments(state), ...shape(state), ...furnace(state, schedule)];
}

function fillerToFull({ filler, places }: PartState): Objection[] {
  const { toFullTreatment, dilutesUpToMm, because, source, known } = fillerResponse(filler);
  if (toFullTreatment === 'no') return [forbids(`Filler ${filler}: ${because}`, source, known)];
  if (toFullTreatment === 'nobody knows')
    return [ask(`How the weld metal takes the treatment: ${because}`, source, known)];
  if (toFullTreatment !== 'by dilution' || dilutesUpToMm === undefined) return [];
  if (!places.some(({ material }) => material === 'wrought'))
    return [
      ask(
        `Filler ${filler} in a casting alone does not respond as the casting does: 4008 is the filler for it`,
        source,
        known,
      ),
    ];
  // A casting brings its own magnesium; whether the weld picks up enough is a matter of the wrought side.
  const joint = places.filter(({ material }) => material !== 'casting');
  const thick = joint.filter(({ thicknessMm = 0 }) => thicknessMm > dilutesUpToMm);
  const open = joint.filter(({ thicknessMm }) => thicknessMm === undefined);
  return [
    ...(thick.length > 0
      ? [
          ask(
            `Filler ${filler} at ${listed(thick)}, thicker than ${dilutesUpToMm} mm: ${because}`,
            source,
            known,
          ),
        ]
      : []),
    ...(open.length > 0
      ? [ask(`How thick it is at ${listed(open)} is not said. Filler ${filler}: ${because}`, source, known)]
      : []),
  ];
}

function earlierTreatments({ solutionTreatments }: PartState): Objection[] {
  const source = 'SAE AMS 2770, MIL-H-6088: commonly two re-treatments after the first without approval';
  if (solutionTreatments === null)
    return [ask('How often the part was solution treated is not said', source, 'memory')];
  return solutionTreatments > USUAL_RETREATMENTS
    ? [
        ask(
          `It was solution treated ${solutionTreatments} times: more than ${USUAL_RETREATMENTS} re-treatments take the approval of whoever owns the design`,
          source,
          'memory',
        ),
      ]
    : [];
}

function shape({ thinnestWallMm, longestMm }: PartState): Objection[] {
  return [
    ...(thinnestWallMm === null
      ? [ask('The thinnest wall is not said: thin walls warp in the quench')]
      : thinnestWallMm < THIN_MM
        ? [
            ask(
              `A wall of ${thinnestWallMm} mm beside thicker metal warps in the quench: ask for a trial, a fixture, or hot water`,
              `${GUIDE}: re-solution distorts finished weldments; the ${THIN_MM} mm is this kit's judgement`,
              'seen',
            ),
          ]
        : []),
    ...(longestMm === null
      ? [ask('The size of the part is not said: large weldments quench unevenly')]
      : longestMm > LONG_MM
        ? [
            ask(
              `At ${longestMm} mm it quenches unevenly, and its strength will not be the same all over`,
              `${GUIDE}: usually limited to small parts; the ${LONG_MM} mm is this kit's judgement`,
              'seen',
            ),
          ]
        : []),
  ];
}

function furnace({ wroughtSchedule, uniformityK = CLASS_2_K }: PartState, schedule: Schedule): Objection[] {
  const { solution, alloy } = schedule;
  if (!solution)
    return [
      forbids(
        `The schedule ${schedule.name} has no solution treatment: this temper is made from the mould or the press`,
        schedule.edition,
        'seen',
      ),
    ];
  const melts = Math.min(AL_SI_MG_EUTECTIC_C, schedule.meltsFromC ?? meltsFromC(loadAlloy(alloy)));
  const hottest = solution.setC + uniformityK;
  const found: Objection[] = [];
  if (hottest >= melts)
    found.push(
      forbids(
        `A furnace of ± ${formatTempSpan(uniformityK)} at ${formatTemp(solution.setC)} reaches ${formatTemp(hottest)}; weld and casting begin to melt at ${formatTemp(melts)}`,
        'ternary eutectic of Al-Si-Mg',
        'memory',
      ),
    );
  if (wroughtSchedule !== undefined) {
    const window = furnaceWindow([schedule, wroughtSchedule], { uniformityK });
    if (window.solution && !window.solution.possible)
      found.push(
        ask(`One solution treatment for both metals: ${window.solution.because}`, schedule.edition, 'memory'),
      );
    if (window.age && !window.age.possible)
      found.push(ask(`One age for both metals: ${window.age.because}`, schedule.edition, 'memory'));
  }
  return found;
}

function fittings(kind: WayKind, { fittings: on }: PartState): Objection[] {
  const told: readonly (readonly [boolean | null, string, boolean])[] = [
    [on.threads, 'threads', kind === 'full treatment'],
    [on.coating, 'plating, anodising, paint or powder', true],
    [on.inserts, 'pressed-in bushes, inserts, bearings, seals or adhesive', true],
    [on.machined, 'faces or bores machined to size', kind === 'full treatment'],
  ];
  return told.flatMap(([there, what, matters]): Objection[] => {
    if (!matters || there === false) return [];
    if (there === null) return [ask(`Whether the part has ${what} is not said`)];
    return what === 'threads' || what.startsWith('faces')
      ? [ask(`It has ${what}: the quench moves them; leave stock and finish them afterwards`)]
      : [ask(`It has ${what}: off before it goes into the furnace, or ask what it stands`)];
  });
}

const listed = (places: readonly PartPlace[]): string => places.map(({ name }) => `"${name}"`).join(', ');
