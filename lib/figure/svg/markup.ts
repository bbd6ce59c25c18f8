import { escapeXml } from '../../quantity';

/** The lines a piece of plotly markup shows: `<br>` breaks, entities are what they stand for. */
export function plainLines(markup: string): string[] {
  return markup
    .split('<br>')
    .map((line) => line.replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&'));
}

/** A number for an SVG attribute: a tenth of a pixel is enough, and keeps files small. */
export function px(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** An element; attributes that are undefined are left out. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string | number | undefined>>,
  content = '',
): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? px(value) : escapeXml(value!)}"`)
    .join('');
  return content === '' ? `<${name}${written}/>` : `<${name}${written}>${content}</${name}>`;
}
