import type { Figure } from '../figure';
import { plainLines } from '../svg/markup';

/** A figure's title as plain text; empty when it has none. */
export function figureName({ layout }: Figure): string {
  return plainLines(layout.title?.text ?? '').join(' ');
}
