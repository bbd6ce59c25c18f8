/** A page with its texts changed, between the tags; what stands in the elements named stays as it is. */
export const changeTexts = (page: string, but: readonly string[], change: (text: string) => string): string =>
  page
    .split(new RegExp(`(<(${but.join('|')})\\b[\\s\\S]*?<\\/\\2>|<[^>]*>)`, 'u'))
    .map((piece, i) => (i % 3 === 0 ? change(piece) : i % 3 === 1 ? piece : ''))
    .join('');
