import { escapeXml } from '../../quantity';

/** A piece of finished HTML. Only `html` and `trusted` make one, so text cannot slip in unescaped. */
export class Html {
  constructor(readonly text: string) {}
}

type Piece = Html | string | number | undefined | false | readonly Piece[];

/**
 * Builds HTML: whatever is put into the template is escaped, unless it is HTML already. Lists are joined,
 * `undefined` and `false` leave nothing. Works between tags and inside quoted attributes.
 */
export function html(strings: TemplateStringsArray, ...pieces: readonly Piece[]): Html {
  return new Html(strings.reduce((whole, part, i) => whole + written(pieces[i - 1]) + part));
}

/** HTML made elsewhere in the kit: pictures, scripts, style. Never anything from a file or a user. */
export const trusted = (text: string): Html => new Html(text);

function written(piece: Piece): string {
  if (piece === undefined || piece === false) return '';
  if (piece instanceof Html) return piece.text;
  if (typeof piece === 'string' || typeof piece === 'number') return escapeXml(String(piece));
  return piece.map(written).join('');
}
