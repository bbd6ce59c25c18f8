import { formatPercent } from './format';
import type { Judged } from './judged';

/** "93 % (84–98 %)": a judged fraction with its band. */
export function formatKept({ nominal, low, high }: Judged): string {
  return `${formatPercent(nominal)} (${Math.round(low * 100)}–${formatPercent(high)})`;
}
