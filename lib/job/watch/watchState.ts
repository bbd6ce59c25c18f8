import type { PlaceSoFar, SoFar } from '../../decision';
import { formatDuration, formatTemp, inUsUnits, type Units } from '../../quantity';
import type { ReadingsNow } from './readingsNow';

/** How urgent it is. */
export type Level = 'fine' | 'near' | 'stop' | 'unknown';

/** One probe as whoever welds needs it. */
export interface ProbeState {
  readonly name: string;
  /** Last reading, °C; null where it has none of late. */
  readonly tempC: number | null;
  readonly limitC: number | null;
  /** Share of the allowance used: median, and at most in 95 of 100 draws; null until it was worked out. */
  readonly usedShare: number | null;
  readonly usedAtMost: number | null;
  /** Time left at the present reading with the cooling counted, s; null where nothing tells. */
  readonly leftS: number | null;
  readonly level: Level;
  /** What to do and why, in a few words. */
  readonly say: string;
}

/** Everything a page or a terminal shows of a weld that goes on. */
export interface WatchState {
  readonly log: string;
  readonly level: Level;
  /** The one line to be seen from the bench. */
  readonly headline: string;
  readonly probes: readonly ProbeState[];
  /** Since the last new row, s. */
  readonly silentS: number;
  /** What the page shows first; °C unless given. */
  readonly units?: Units;
  /** What else is to be known: restarts, a locked file, inputs that are not judged. */
  readonly notes: readonly string[];
}

/** A probe this close below its limit, K, or with this little left, s, is near it. */
const NEAR_K = 15;
const NEAR_S = 15;
/** So long without a new row, or three usual intervals, what stands there is not now, s. */
const SILENT_S = 3;
/** Holds are asked about up to an hour: what still has that much is not counted down. */
const LONG_S = 3600;

/** A judgement of the log up to a moment, and what was spent of each place's hold since: 1 for all of it. */
export interface Judgement {
  readonly soFar: SoFar;
  readonly spent: Map<string, number>;
}

/** Hold left at a reading: between the readings asked about a straight line of its logarithm, hotter than all of them none. */
export function holdAt({ left }: Pick<PlaceSoFar, 'left'>, tempC: number): number {
  const k = left.findIndex((one) => one.tempC >= tempC);
  if (k === 0) return left[0]!.holdS;
  if (k < 0) return 0;
  const [a, b] = [left[k - 1]!, left[k]!];
  if (b.holdS === 0) return 0;
  const share = (tempC - a.tempC) / (b.tempC - a.tempC);
  return a.holdS ** (1 - share) * b.holdS ** share;
}

/** What the probes read, without the log behind it. */
type Reading = Omit<ReadingsNow, 'log'>;

/** Counts a stretch of time at a reading into what is spent. */
export function spend({ soFar, spent }: Judgement, now: Reading, overS: number): void {
  for (const place of soFar.places) {
    const tempC = now.probes.find(({ name }) => name === place.name)?.tempC;
    if (tempC === undefined) continue;
    const holdS = holdAt(place, tempC);
    if (holdS < LONG_S) spent.set(place.name, (spent.get(place.name) ?? 0) + overS / Math.max(1, holdS));
  }
}

/** One probe's state from its reading and the last judgement. */
export function probeState(
  { name, tempC }: { readonly name: string; readonly tempC?: number },
  judgement: Judgement | undefined,
): ProbeState | undefined {
  const place = judgement?.soFar.places.find((one) => one.name === name);
  if (judgement && !place) return undefined;
  const spent = judgement?.spent.get(name) ?? 0;
  const leftS = place && tempC !== undefined ? Math.max(0, (1 - spent) * holdAt(place, tempC)) : null;
  const { level, say } = levelOf(tempC, place, leftS);
  return {
    name,
    tempC: tempC ?? null,
    limitC: place?.limitC ?? null,
    usedShare: place?.usedShare ?? null,
    usedAtMost: place?.usedAtMost ?? null,
    leftS,
    level,
    say,
  };
}

function levelOf(
  tempC: number | undefined,
  place: PlaceSoFar | undefined,
  leftS: number | null,
): { readonly level: Level; readonly say: string } {
  if (!place) return { level: 'unknown', say: 'working it out' };
  const { limitC, blind, word } = place;
  if (word === 'lost') return { level: 'stop', say: 'The allowance is used up: the temper is lost here.' };
  if (tempC === undefined) return { level: 'stop', say: 'No reading: stop, and look at the probe.' };
  if (limitC !== undefined && tempC >= limitC)
    return { level: 'stop', say: `At the limit of ${formatTemp(limitC)}: stop and let it cool.` };
  if (leftS === 0)
    return {
      level: 'stop',
      say: 'The allowance may be used up once it has cooled: stop, and measure before you go on.',
    };
  if (blind.length > 0) return { level: 'near', say: 'Heat may be hidden here: measure before it is used.' };
  if (leftS !== null && leftS < NEAR_S)
    return { level: 'near', say: `Stop within ${formatDuration(leftS)} at this heat.` };
  if (limitC !== undefined && tempC >= limitC - NEAR_K)
    return { level: 'near', say: `Close to the limit of ${formatTemp(limitC)}.` };
  return {
    level: 'fine',
    say:
      leftS === null || leftS >= LONG_S
        ? 'Over an hour left at this heat.'
        : `${formatDuration(leftS)} left at this heat.`,
  };
}

const WORST: readonly Level[] = ['stop', 'near', 'unknown', 'fine'];

/** The state of the whole log. */
export function watchState(
  log: string,
  now: Reading | string | undefined,
  judgement: Judgement | undefined,
  { silentS, notes }: Pick<WatchState, 'silentS' | 'notes'>,
): WatchState {
  if (now === undefined || typeof now === 'string')
    return {
      log,
      level: 'unknown',
      headline: `Waiting for readings of ${log}`,
      probes: [],
      silentS,
      notes: now ? [...notes, now] : notes,
    };
  const probes = now.probes.flatMap((one) => probeState(one, judgement) ?? []);
  const isSilent = silentS > Math.max(SILENT_S, 3 * now.intervalS);
  const level = isSilent
    ? 'stop'
    : (WORST.find((one) => probes.some((probe) => probe.level === one)) ?? 'unknown');
  const worst = probes.filter((probe) => probe.level === level);
  const headline = isSilent
    ? `STOP: no new reading for ${formatDuration(silentS)}`
    : level === 'stop'
      ? `STOP: ${worst.map(({ name }) => name).join(', ')}`
      : level === 'near'
        ? `Get ready to stop: ${worst.map(({ name }) => name).join(', ')}`
        : level === 'fine'
          ? 'Go on'
          : 'Working it out';
  const { places = [], notJudged = [] } = judgement?.soFar ?? {};
  const aside = [
    ...places.flatMap(({ name, blind }) => blind.map((because) => `${name}: ${because}`)),
    ...notJudged.map(({ name, because }) => `${name}: ${because}`),
  ];
  return { log, level, headline, probes, silentS, notes: [...notes, ...aside] };
}

/** The same state as a US shop reads it. */
export function stateInUsUnits(state: WatchState): WatchState {
  const names = state.probes.map(({ name }) => name);
  const shown = (text: string): string => inUsUnits(text, names);
  return {
    ...state,
    units: 'us',
    headline: shown(state.headline),
    probes: state.probes.map((probe) => ({ ...probe, say: shown(probe.say) })),
    notes: state.notes.map(shown),
  };
}
