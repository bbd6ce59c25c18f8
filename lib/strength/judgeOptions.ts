import type { AlloyCard } from '../alloy';
import type { Attachment, ToleranceClass } from '../thermocouple';

/** What one probe sits on and how it is fixed, where it differs from the rest of the log. */
export interface ChannelOptions {
  readonly alloy?: AlloyCard | string;
  readonly temper?: string;
  /** Yield measured on this part before welding, MPa; otherwise the card's typical value. */
  readonly measuredYieldMPa?: number;
  /** Or its Vickers hardness before welding, wrought metal only (`yieldOfVickers`). */
  readonly measuredHardnessHV?: number;
  readonly attachment?: Attachment;
}

/** What `judge` needs to know. */
export interface JudgeOptions extends ChannelOptions {
  readonly alloy: AlloyCard | string;
  readonly temper: string;
  /** Yield loss the shop accepts, fraction; default 0.1. */
  readonly allowanceFraction?: number;
  /** The shop's temperature limit, °C; default the card's (440 °F for the 356 family, common practice). */
  readonly limitC?: number;
  readonly thermocouple?: ToleranceClass;
  /** Air around the part, °C; default the coldest reading of the log's first minute. */
  readonly ambientC?: number;
  /** By channel name. */
  readonly byChannel?: Readonly<Record<string, ChannelOptions>>;
}

/** Yield loss a shop accepts unless it says otherwise, fraction. */
export const DEFAULT_ALLOWANCE = 0.1;
