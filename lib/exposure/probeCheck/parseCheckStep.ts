import { celsiusOf, TemperbookError } from '../../quantity';
import { secondsOf } from '../heats/secondsOf';
import type { CheckStep } from './probeCheck';

const FORM =
  /^(?<what>ice water|boiling water|tap water|all together|one alone|wiggle|arc)(?:\s+(?<channel>\S.*?))?\s+(?<from>[\d.,]+\s*[a-z]+)\s+to\s+(?<to>[\d.,]+\s*[a-z]+)(?:\s+at\s+(?<at>\S.*))?$/i;
const FORMS =
  'what was done and when on the clock of the log, such as "ice water 30s to 90s", "boiling water 2min to 3min at 1500m", "tap water 4min to 5min at 15C", "all together 5min to 6min", "one alone TC1 6min to 7min", "wiggle 7min to 8min", "arc 8min to 9min"';
const M_PER_FT = 0.3048;

/**
 * A step of a check of the probes, in words: what was done, from when to when after the first row of its log, and what the
 * water was: the altitude of a boil (m, ft) or the pressure there (kPa), the temperature of tap water.
 * @throws TemperbookError with how to write it.
 * @example parseCheckStep('boiling water 2min to 3min at 5000ft').fromS // 120
 */
export function parseCheckStep(words: string): CheckStep {
  const { what, channel, from, to, at } = FORM.exec(words.trim())?.groups ?? {};
  const cannot = (): TemperbookError =>
    new TemperbookError('This step of the check cannot be read', { found: `"${words}"`, expected: FORMS });
  if (what === undefined || from === undefined || to === undefined) throw cannot();
  const span = { fromS: secondsOf(from, words), toS: secondsOf(to, words) };
  const kind = what.toLowerCase() as CheckStep['what'];
  if ((channel !== undefined) !== (kind === 'one alone')) throw cannot();
  switch (kind) {
    case 'boiling water':
      return { ...span, what: kind, ...(at === undefined ? {} : airOf(at, cannot)) };
    case 'tap water':
      if (at === undefined) throw cannot();
      return { ...span, what: kind, tempC: celsiusOf(at, 'The tap water') };
    case 'one alone':
      return { ...span, what: kind, channel: channel! };
    default:
      if (at !== undefined) throw cannot();
      return { ...span, what: kind };
  }
}

function airOf(at: string, cannot: () => TemperbookError) {
  const [, number, unit] = /^(-?\d+(?:\.\d+)?)\s*(m|ft|kPa)$/i.exec(at.trim()) ?? [];
  if (unit === undefined) throw cannot();
  const value = Number(number);
  switch (unit.toLowerCase()) {
    case 'kpa':
      return { pressureKPa: value };
    case 'ft':
      return { altitudeM: value * M_PER_FT };
    default:
      return { altitudeM: value };
  }
}
