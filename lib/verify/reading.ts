import { knownOptions, nearestName, requireNumber, TemperbookError } from '../quantity';

/** What may be read at the bench. */
export type ReadingKind =
  | 'brinell'
  | 'vickers'
  | 'rockwellE'
  | 'rockwellF'
  | 'rockwellB'
  | 'webster'
  | 'conductivity'
  | 'yield';

/** One number read at the bench, at the place of one probe; the mean where it was read several times. */
export interface Reading {
  /** The probe beside which it was read. */
  readonly channel: string;
  readonly kind: ReadingKind;
  /** HB, HV, HRE, HRF, HRB, Webster, % IACS or MPa. */
  readonly value: number;
  /** The same reading on cold metal of the same part. */
  readonly reference?: number;
  /** Of the value, from the scatter of the readings; default what the instrument repeats to. */
  readonly standardUncertainty?: number;
}

/** What each instrument may show on aluminium, in words and numbers. */
export const SCALES: Readonly<
  Record<
    ReadingKind,
    { readonly words: string; readonly unit: string; readonly low: number; readonly high: number }
  >
> = {
  brinell: { words: 'Brinell', unit: 'HB', low: 15, high: 200 },
  vickers: { words: 'Vickers', unit: 'HV', low: 20, high: 250 },
  rockwellE: { words: 'Rockwell E', unit: 'HRE', low: 20, high: 115 },
  rockwellF: { words: 'Rockwell F', unit: 'HRF', low: 20, high: 115 },
  rockwellB: { words: 'Rockwell B', unit: 'HRB', low: 0, high: 100 },
  webster: { words: 'Webster gauge', unit: 'on the Webster gauge', low: 1, high: 20 },
  conductivity: { words: 'conductivity', unit: '% IACS', low: 20, high: 65 },
  yield: { words: 'tensile', unit: 'MPa', low: 20, high: 600 },
};

const FIELDS = ['channel', 'kind', 'value', 'reference', 'standardUncertainty'];

/**
 * The readings themselves when each can be what it says.
 * @throws TemperbookError naming the reading: a kind there is not, a value off its scale, a place without a probe.
 */
export function checkReadings(readings: readonly Reading[], channels: readonly string[]): readonly Reading[] {
  for (const [k, given] of readings.entries()) {
    const reading = knownOptions(given, FIELDS, `Reading ${k + 1}`);
    const scale = SCALES[reading.kind];
    if (!scale)
      throw new TemperbookError(`Reading ${k + 1} is of a kind there is not`, {
        found: `"${reading.kind}"`,
        expected: `one of ${Object.keys(SCALES).join(', ')}`,
      });
    const near = nearestName(reading.channel, channels);
    if (!channels.includes(reading.channel))
      throw new TemperbookError(`Reading ${k + 1} is beside a probe that was not judged`, {
        found: `"${reading.channel}"`,
        expected: `one of ${channels.map((name) => `"${name}"`).join(', ')}`,
        ...(near ? { remedy: `Did you mean "${near}"?` } : {}),
      });
    for (const [name, value] of [
      ['value', reading.value],
      ['reference', reading.reference],
    ] as const)
      if (value !== undefined && !(value >= scale.low && value <= scale.high))
        throw new TemperbookError(`The ${name} of reading ${k + 1} is off the scale`, {
          found: `${value} ${scale.unit}`,
          expected: `${scale.low} to ${scale.high} ${scale.unit} on aluminium`,
          remedy: 'Check the scale and the unit of the instrument',
        });
    if (reading.standardUncertainty !== undefined)
      requireNumber(reading.standardUncertainty, `The standard uncertainty of reading ${k + 1}`, {
        low: Number.MIN_VALUE,
      });
  }
  return readings;
}
