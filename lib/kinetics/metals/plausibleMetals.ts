import { type AlloyCard, loadAlloy } from '../../alloy';
import { requireNumber, TemperbookError } from '../../quantity';
import { memberDraws, memberTable } from './memberTable';
import { isFittedAlloy, metalOf, type NamedTemper, namedTemper } from './metalOf';
import type { PlausibleMetal } from './plausibleMetal';

/** A sample of what a part of an alloy and temper may be. Member i of two alloys is the same draw of the family. */
export interface PlausibleMetals {
  readonly metals: readonly PlausibleMetal[];
  readonly evidenceHash: string;
  /** Why the sample is what it is, and what it leaves open. */
  readonly because: readonly string[];
  /** Yields the temper can have, MPa: 0.8 to 1.25 times the band of its card; `null`: the temper has no entry. */
  readonly startRangeMPa: readonly [number, number] | null;
}

/**
 * The first `count` members of the committed sequence for an alloy and temper; any first n are spread like all, and
 * hold both families of the short range alike (even places `curve`, odd ones `delayed`).
 * A shop's own card is answered from its family, with a wider scatter between lots, and `because` says so.
 * @throws TemperbookError for an unknown alloy or temper, a count below 1 or above the members there are.
 */
export function plausibleMetals(alloy: AlloyCard | string, temper: string, count = 400): PlausibleMetals {
  const card = loadAlloy(alloy);
  const named = namedTemper(card, temper);
  const table = memberTable();
  requireNumber(Number.isInteger(count) ? count : Number.NaN, 'The number of plausible metals', {
    low: 1,
    high: table.count,
  });
  const metals = memberDraws(count).map((draw) => metalOf(draw, card, named));
  const band = rangeOf(card, named);
  return {
    metals,
    evidenceHash: table.evidenceHash,
    because: because(card, named.kind),
    startRangeMPa: band ? [0.8 * band.low, 1.25 * band.high] : null,
  };
}

/** Freshly quenched metal lies between that and what the shelf makes of it. */
function rangeOf(
  card: AlloyCard,
  { name, entry }: NamedTemper,
): { readonly low: number; readonly high: number } | undefined {
  if (name !== 'W') return entry?.yieldMPa;
  const { floorYieldMPa: fresh } = card.dissolution;
  return { low: fresh.low, high: fresh.high + card.naturalAgeing.gainMPa.high };
}

function because(card: AlloyCard, kind: PlausibleMetal['kind']): string[] {
  const told = [
    'Plausible metals are draws of one fit to all measured rows: activation energy, curve and solvus are shared by the family, clock and start belong to the part.',
    'Below half an hour hardly anything was measured: half the draws carry the handbook curve on, half let the loss begin late as the size-class model may.',
  ];
  if (!isFittedAlloy(card))
    told.push(
      `No measured row is about ${card.designation}: it is answered as a lot of its family (${card.family}), with one and a half times the scatter.`,
    );
  if (card.family === 'Al-Si-Mg casting')
    told.push(
      'Of castings nothing was measured below 15 minutes; the ultimate strength kept is not known. Coupons of the same lot would settle it: bars held 10 s and 60 s at 270 and 330 °C (518 and 626 °F) in a hot bath, pulled beside unheated ones.',
    );
  if (kind === 'soft') told.push('This temper has no hardening to lose.');
  return told;
}

/**
 * Refuses a yield that the temper cannot have.
 * @throws TemperbookError with the range.
 */
export function checkStartYield(
  { startRangeMPa, metals }: Pick<PlausibleMetals, 'startRangeMPa' | 'metals'>,
  measuredYieldMPa: number,
): void {
  if (startRangeMPa === null) return;
  const [low, high] = startRangeMPa;
  if (measuredYieldMPa >= low && measuredYieldMPa <= high) return;
  const { alloy, temper } = metals[0]!;
  throw new TemperbookError(`A yield of ${measuredYieldMPa} MPa before the heat is not ${alloy}-${temper}`, {
    found: `${measuredYieldMPa} MPa`,
    expected: `${Math.round(low)} to ${Math.round(high)} MPa`,
    remedy:
      'Check the unit (MPa), the alloy and the temper of the part, and that it was measured before the heat',
  });
}
