import type { FaultKind } from '../faultKind';

/** Every kind, in the order of their codes: code 1 is the first. Code 0 is a trusted reading. */
export const FAULT_KINDS: readonly FaultKind[] = [
  'missing field',
  'not a number',
  'error token',
  'open circuit',
  'over range',
  'absolute zero',
  'dead channel',
  'reversed polarity',
  'clamped',
  'frozen',
  'let go',
  'swapped',
  'spike',
  'impossible step',
  'ramp between faults',
  'loose junction',
  'gap',
  'clock',
];

/** A reading with nothing against it. */
export const TRUSTED = 0;
/** The channel does not exist in this block of the file: no reading was due, so none is missing. */
export const ABSENT = 255;

/** The byte that stands for a kind in a channel's marks. */
export const codeOf = (kind: FaultKind): number => FAULT_KINDS.indexOf(kind) + 1;
