import type { AlloyCard } from '../alloy';
import type { CheckedProbe, Exposure } from '../exposure';
import type { ThermalHistory } from '../history';
import type { LotWeights } from '../strength';
import type { Attachment, ToleranceClass } from '../thermocouple';
import type { Reading } from '../verify';
import type { PartKnown } from './action/action';

/** What reads the metal. */
export type Instrument = 'thermocouple' | 'infrared on bare metal' | 'infrared on a painted spot';

/** What a probe reads. */
export type ProbeRole = 'part' | 'air' | 'unused' | 'not said';

/** What one probe sits on and how it is fixed, where it differs from the rest of the log. */
export interface ChannelOptions {
  readonly alloy?: AlloyCard | string;
  readonly temper?: string;
  /** Yield measured on this part before welding, MPa; otherwise the card's typical value. */
  readonly measuredYieldMPa?: number;
  /** Or its Vickers hardness before welding, wrought metal only (`yieldOfVickers`). */
  readonly measuredHardnessHV?: number;
  readonly attachment?: Attachment;
  /**
   * What the probe reads: metal of the part, the air round it, which is not judged, or nothing (an input without a probe).
   * 'not said': metal of the part that nobody named, which is not judged, so that the part is not cleared.
   * Default: the air where the file's column says so, else the part.
   */
  readonly role?: ProbeRole;
  /**
   * What reads the metal. Default: an infrared instrument on bare metal where the file says infrared, else a thermocouple.
   * Bare aluminium shines so little that an infrared reading of it is no bound.
   */
  readonly instrument?: Instrument;
  /** Heats the metal here had before this one, in their order: they count, and a warm start hides nothing then. */
  readonly earlier?: readonly (Exposure | ThermalHistory)[];
  /** What a check of the probe before the weld found (`checkProbes`). */
  readonly check?: CheckedProbe;
}

/** What `judge` needs to know. */
export interface JudgeOptions extends ChannelOptions {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  /** Yield loss the shop accepts, fraction; default 0.1. */
  readonly allowanceFraction?: number;
  /** The shop's temperature limit, °C or as '440F'; default the card's (440 °F for the 356 family, common practice). */
  readonly limitC?: number | string;
  readonly thermocouple?: ToleranceClass;
  /** Air around the part, °C; default the coldest reading of the log's first minute. */
  readonly ambientC?: number;
  /** By channel name. */
  readonly byChannel?: Readonly<Record<string, ChannelOptions>>;
  /** Bench readings on this part after the heat: they weigh the draws of record and metal together. */
  readonly readings?: readonly Reading[];
  /** What coupons say of the lots of metal in the part (`lotCard`): they weigh the plausible metals. */
  readonly lots?: readonly LotWeights[];
  /**
   * What is known of the part, for the ways to go on where it may not simply be used: given, even as {}, they are worked out
   * (`Verdict.action.ways`), and what is not in it stands as a question.
   */
  readonly part?: PartKnown;
  /** The log of an oven or a furnace: heat comes and goes over minutes, so readings may be far apart. */
  readonly isOven?: boolean;
  /** Readings that are means over their interval; default what the file says. */
  readonly areMeans?: boolean;
  /**
   * Called now and then with the share of the work done, once it has taken two seconds; it stands still while a
   * chance close to the rule asks for more draws.
   */
  readonly onProgress?: (share: number) => void;
}

/** The options of one channel, as `judge` knows them. */
export const CHANNEL_OPTIONS = [
  'alloy',
  'temper',
  'measuredYieldMPa',
  'measuredHardnessHV',
  'attachment',
  'role',
  'instrument',
  'earlier',
  'check',
] as const satisfies readonly (keyof ChannelOptions)[];

/** All options of `judge`. */
export const JUDGE_OPTIONS = [
  ...CHANNEL_OPTIONS,
  'allowanceFraction',
  'limitC',
  'thermocouple',
  'ambientC',
  'byChannel',
  'readings',
  'lots',
  'part',
  'isOven',
  'areMeans',
  'onProgress',
] as const satisfies readonly (keyof JudgeOptions)[];
