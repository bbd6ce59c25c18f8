import { requireNumber, type Sourced, TemperbookError } from '../quantity';

/** How a junction is fixed to the part. */
export type AttachmentKind =
  | 'welded wires'
  | 'peened hole'
  | 'cemented'
  | 'clamped with paste'
  | 'clamped dry'
  | 'taped'
  | 'under a washer or bolt'
  | 'hand-held probe'
  | 'not stated';

/** A way of fixing from the table, or the shop's own number with its source (a fraction, `unit` '1'). */
export type Attachment = AttachmentKind | Sourced;

const fraction = (
  [low, value, high]: readonly [number, number, number],
  known: Sourced['known'],
  source: string,
): Sourced => ({ value, low, high, unit: '1', source, known });

const PRACTICE = 'common practice, no source; bracketed by the welded and the dry clamped junction';

const ATTACHMENTS: { readonly [kind in AttachmentKind]: Sourced } = {
  'welded wires': fraction(
    [0.0015, 0.003, 0.006],
    'derived',
    'fin with spreading resistance, 0.25 and 0.5 mm type K wire on aluminium, 20 to 100 W/m² K',
  ),
  'peened hole': fraction([0.003, 0.01, 0.03], 'practice', PRACTICE),
  cemented: fraction([0.005, 0.02, 0.06], 'practice', PRACTICE),
  'clamped with paste': fraction(
    [0.015, 0.04, 0.09],
    'derived',
    '1.5 and 3 mm sheath on a fin model, contact 5000 to 40 000 W/m² K guessed',
  ),
  'clamped dry': fraction(
    [0.03, 0.12, 0.2],
    'derived',
    '1.5 and 3 mm sheath on a fin model, contact 2000 W/m² K guessed at the worst; order of magnitude only',
  ),
  taped: fraction([0.03, 0.1, 0.25], 'practice', PRACTICE),
  'hand-held probe': fraction(
    [0.02, 0.1, 0.2],
    'practice',
    `${PRACTICE}; several °C per NPL guidance on surface probes`,
  ),
  'under a washer or bolt': fraction(
    [0.01, 0.05, 0.15],
    'practice',
    `${PRACTICE}; pressed flat, without paste`,
  ),
  // Nobody said: never kinder than any fixing somebody might have said.
  'not stated': fraction(
    [0.03, 0.12, 0.25],
    'practice',
    'the loosest of the others at every point: nobody said how the probe was fixed',
  ),
};

/** Every way of fixing the table knows. */
export const ATTACHMENT_KINDS = Object.keys(ATTACHMENTS) as readonly AttachmentKind[];

/**
 * Fraction of (part − ambient) by which a junction reads LOW: it loses heat along its wires faster than it gets
 * it through the contact. One-sided, with its band, its source and how it is known.
 * @throws TemperbookError on an unknown kind, or a shop's own numbers that are not 0 ≤ low ≤ value ≤ high < 1.
 */
export function attachmentError(attachment: Attachment): Sourced {
  if (typeof attachment === 'string') {
    if (Object.hasOwn(ATTACHMENTS, attachment)) return ATTACHMENTS[attachment];
    throw new TemperbookError('Unknown way of attaching a thermocouple', {
      found: `"${attachment}"`,
      expected: `one of ${Object.keys(ATTACHMENTS).join(', ')}`,
      remedy: 'Or give your own number: { value, low, high, unit: "1", source, known }',
    });
  }
  const { low, value, high } = attachment;
  if (!(low >= 0 && low <= value && value <= high && high < 1))
    throw new TemperbookError('An attachment error must be a fraction of the rise above ambient', {
      found: `low ${low}, value ${value}, high ${high}`,
      expected: '0 ≤ low ≤ value ≤ high < 1',
    });
  return attachment;
}

/**
 * Correction in °C to add to a reading that is low by a fraction f of (part − ambient):
 * f/(1 − f) (reading − ambient); 0 for a part that is not above ambient. Use it with `shiftTemperature`.
 * @throws TemperbookError on a fraction outside 0 ≤ f < 1 or temperatures that are not numbers.
 */
export function attachmentCorrectionC(readC: number, ambientC: number, lowFraction: number): number {
  requireNumber(lowFraction, 'Attachment error as a fraction', { low: 0, high: 0.99 });
  const aboveK = requireNumber(readC, 'Reading in °C') - requireNumber(ambientC, 'Ambient temperature in °C');
  return (lowFraction / (1 - lowFraction)) * Math.max(0, aboveK);
}
