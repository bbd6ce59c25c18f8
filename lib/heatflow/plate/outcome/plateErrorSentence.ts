import { formatTempSpan, TemperbookError } from '../../../quantity';
import type { PlateProbeError, PlateResult } from './plateResult';

/**
 * How far steps and cells of a run move its temperatures, in a sentence: the worst of its probes that did not melt.
 * @throws TemperbookError when the run was not asked for its errors, or every probe melted.
 */
export function plateErrorSentence({ errors, probes, notes }: PlateResult): string {
  const solid = (errors ?? []).filter((_, k) => !probes[k]!.molten);
  if (solid.length === 0)
    throw new TemperbookError('The run has no errors to tell of', {
      remedy: 'Solve with checkErrors: true, and with a probe that stays outside the weld pool',
    });
  const ofSteps = worst(solid, ({ timeStepK }) => timeStepK);
  const steps = `Steps four times finer move the temperatures at the probes, outside the weld pool, by at most ${ofSteps}`;
  const ofCells = worst(solid, ({ gridK }) => gridK);
  return ofCells
    ? `${steps}, cells twice as large their peaks by at most ${ofCells}.`
    : `${steps}. ${notes.at(-1)}`;
}

/** The largest of an error and its place: "9.2 °C (16.6 °F) at lip 4 mm"; nothing where it was not measured. */
function worst(
  errors: readonly PlateProbeError[],
  kelvinOf: (error: PlateProbeError) => number | undefined,
): string | undefined {
  const known = errors.flatMap((error) => {
    const kelvin = kelvinOf(error);
    return kelvin === undefined ? [] : [{ name: error.name, kelvin }];
  });
  const largest = known.sort((a, b) => b.kelvin - a.kelvin)[0];
  return largest && `${formatTempSpan(largest.kelvin, 1)} at ${largest.name}`;
}
