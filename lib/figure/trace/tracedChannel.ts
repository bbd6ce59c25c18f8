import type { ThermalHistory } from '../../history';
import type { Fault } from '../../log';

/** What a trace is drawn from: a channel of a log, or any named history. */
export interface TracedChannel {
  readonly name: string;
  readonly history: ThermalHistory;
  readonly faults?: readonly Fault[];
}
