import { escapeXml } from '../escapeXml';
import { inUsUnits, type Units } from '../inUsUnits';
import { changeTexts } from './changeTexts';
import { pageKeptTogether } from './keepTogether';

/**
 * A page as a reader gets it: in the units asked for, `inUsUnits` of every text, and no quantity parted at the end of a
 * line. Its scripts, styles and pictures stay (`figureInUsUnits`); `names` as for `inUsUnits`.
 */
export function finishPage(page: string, units: Units, names: readonly string[] = []): string {
  const escaped = names.map(escapeXml);
  const inUnits =
    units === 'us' ? changeTexts(page, ['script', 'style', 'svg'], (text) => inUsUnits(text, escaped)) : page;
  return pageKeptTogether(inUnits);
}
