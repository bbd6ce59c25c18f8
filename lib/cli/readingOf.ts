import { type Reading, SCALES } from '../verify';
import { UsageError } from './usage';

/** Kinds of readings by what people call them: "Brinell", "HB", "rockwellE", "HRE". */
const KINDS: Readonly<Record<string, Reading['kind']>> = Object.fromEntries(
  Object.entries(SCALES).flatMap(([kind, { unit }]) =>
    [kind, unit].map((name) => [name.toLowerCase(), kind as Reading['kind']]),
  ),
);

/** "TC1 brinell 68" or "TC1 brinell 68 75": probe, kind, value, the same on cold metal. A probe's name may hold spaces. */
export function readingOf(text: string): Reading {
  const [, channel, kind, value, reference] =
    /^(.+?)\s+([a-z]\w*)\s+(\d+(?:\.\d+)?)(?:\s+(\d+(?:\.\d+)?))?$/i.exec(text.trim()) ?? [];
  if (channel === undefined || kind === undefined || value === undefined)
    throw new UsageError(
      `--reading takes probe, kind, value and, where there is one, the value on cold metal of the same part, such as "TC1 brinell 68 75", not "${text}"`,
    );
  return {
    channel,
    // Record and verdict know the kinds of readings, and name them when they are given another.
    kind: KINDS[kind.toLowerCase()] ?? (kind as Reading['kind']),
    value: Number(value),
    ...(reference === undefined ? {} : { reference: Number(reference) }),
  };
}
