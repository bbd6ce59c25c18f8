import { once } from '../../lib/quantity';
import { modelTrust, verdictTrust, weldZoneTrust } from '../../lib/validation';

/** What several tests look at, worked out once for all that a worker runs: seconds each. */
export const everyTrust = once(() => modelTrust());
export const everyVerdict = once(() => verdictTrust());
export const everyWeldZone = once(() => weldZoneTrust());
