import type { ReadOptions } from '../log';
import { UsageError } from './usage';

/** What `--read` says of how to read a file. */
export function readOptionsOf(json: string): ReadOptions {
  try {
    return JSON.parse(json);
  } catch {
    throw new UsageError(`--read takes JSON such as '{"unit": "°F"}', not ${json}`);
  }
}
