import type { SectionSize, SizedAt } from './sizeSection';

const mm = (value: number): string => `${Number(value.toFixed(2))} mm`;

/**
 * The answer in sentences, for a terminal or a record: what it is now, what it needs, what that costs, on what. A record
 * holds them as the caption of the picture: `figures: [{ caption: sizeWords(size).join(' '), figure: factorFigure(curve) }]`.
 */
export function sizeWords(size: SectionSize & { readonly source: string }): string[] {
  const { wanted, present, least, stock, best, reachMm, reachesMm } = size;
  const asked = `a factor of ${wanted.factor} on ${wanted.on === 'allowable' ? "the code's allowable stress" : wanted.on}`;
  const chosen = stock ?? least;
  return [
    present.factor
      ? `Now, at ${mm(present.thicknessMm)}: a factor of ${present.factor.nominal.toFixed(2)}${band(present)}; ${present.governs!.check} governs.`
      : `Now, at ${mm(present.thicknessMm)}: no answer. ${present.why}`,
    ...(present.slenderWalls.length > 0
      ? [
          `At ${mm(present.thicknessMm)} a compressed wall would buckle before it yields: that factor does not hold.`,
        ]
      : []),
    least
      ? `${capital(asked)} needs at least ${mm(least.thicknessMm)}${stock ? `; of the stock, ${mm(stock.thicknessMm)}` : '; the stock has nothing that fits'}.`
      : `No thickness that was looked at reaches ${asked}: the best is ${best.factor ? best.factor.nominal.toFixed(2) : 'none'} at ${mm(best.thicknessMm)}.`,
    ...(size.heldByBuckling
      ? ['Thinner walls would be strong enough, but one under compression would buckle before it yields.']
      : []),
    ...(reachesMm.length > 1
      ? [
          `Thicker is not always stronger here: ${reachesMm.map(([from, to]) => `${mm(from)} to ${mm(to)}`).join(' and ')} will do, between them the code takes more off than the metal adds.`,
        ]
      : []),
    ...(chosen ? [extraMetal(present, chosen)] : []),
    ...(chosen && reachMm !== null
      ? [`The thicker metal must go at least ${mm(reachMm)} past a weld across it before it thins.`]
      : []),
    wanted.codeFactors
      ? `The code's own factors are counted besides. Source: ${size.source}.`
      : `Counted on characteristic strength, ${wanted.on === 'allowable' ? 'with the safety factor the code holds inside' : 'with no other factor'}. Source: ${size.source}.`,
  ];
}

function extraMetal(present: SizedAt, chosen: SizedAt): string {
  if (present.massKgPerM === null || chosen.massKgPerM === null)
    return 'How much metal that adds is not known.';
  const extra = chosen.massKgPerM - present.massKgPerM;
  const share = extra / present.massKgPerM;
  if (extra <= 0) return 'That is no more metal than now.';
  return `That is ${extra.toFixed(2)} kg/m more, ${(100 * share).toFixed(0)} % on top.`;
}

function band({ factor }: SizedAt): string {
  if (!factor || factor.high - factor.low < 0.005) return '';
  return ` (${factor.low.toFixed(2)} to ${factor.high.toFixed(2)} with the load's doubt)`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
