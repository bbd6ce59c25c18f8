import { type Judged, requireNumber, TemperbookError } from '../../quantity';
import { alloySeries } from '../codes/alloySeries';
import type { CodeAnswer } from '../codes/codeAnswer';
import { type SectionFactor, sectionFactor } from '../resistance/sectionFactor';
import type { SectionLoad } from '../resistance/sectionLoad';
import { weldedResistance } from '../resistance/weldedResistance';
import { sectionBody } from '../shape/sectionBody';
import { roomMm, shapeThicknessMm, withThickness } from '../shape/sectionShape';
import { followWeld } from '../shape/softMetal';
import type { Basis, ResistanceOptions, WeldedSection } from '../weldedSection';
import { codeSteps } from './codeSteps';
import { STOCK_MM } from './stockSizes';

/** What a section is sized to. */
export interface SizeOptions extends ResistanceOptions {
  /** Factor of safety to reach, load doubt included: 4 by many shops. */
  readonly factor: number;
  readonly on: Basis;
  /** Count the code's own factors besides; asked for on purpose only. */
  readonly codeFactors?: boolean;
  /** Thicknesses to choose from, mm; a usual metric series unless given. */
  readonly stockMm?: readonly number[];
  /** Thickest that is looked at, mm; 60, or what the section has room for. */
  readonly upToMm?: number;
}

/** A section at one thickness. */
export interface SizedAt {
  readonly thicknessMm: number;
  /** Null where the code gives no answer at this thickness, with why. */
  readonly factor: Judged | null;
  readonly governs: SectionFactor['governs'] | null;
  readonly slenderWalls: readonly string[];
  readonly massKgPerM: number | null;
  readonly why: string | null;
}

/** The answer to "how thick?". */
export interface SectionSize {
  readonly wanted: { readonly factor: number; readonly on: Basis; readonly codeFactors: boolean };
  /** As it is now. */
  readonly present: SizedAt;
  /** The thinnest that reaches the factor at the low end of the load's doubt; null where none does. */
  readonly least: SizedAt | null;
  /** The thinnest of the stock that does. */
  readonly stock: SizedAt | null;
  /** Ranges of thickness that reach it, mm: a code's step can break one off. */
  readonly reachesMm: readonly (readonly [fromMm: number, toMm: number])[];
  /** The best that was found where none reaches it. */
  readonly best: SizedAt;
  /** Whether thinner metal would do but for a wall that buckles before it yields. */
  readonly heldByBuckling: boolean;
  /** How far past a weld across the thicker metal must go before the thinner begins, mm; null where no code says. */
  readonly reachMm: number | null;
}

/** Density for weights, kg/m³: 6061 2700, A356 2680; handbook values from memory, within 3 % for the others. */
const DENSITY = { wrought: 2700, casting: 2680 };
const THINNEST_MM = 0.5;

/**
 * Thickness of a section that reaches a factor of safety, outside dimensions kept. The code is asked anew at every
 * thickness, for more metal can mean a softer zone (TIG above 6 mm keeps a further 0.8, 4043 above 0.375 in less
 * yield): a first answer that ignores this is not accepted. A size whose compressed walls would buckle before they
 * yield (class 4) is not either.
 *
 * The factor counts on characteristic strength (`on`), never on top of the code's own factors unless `codeFactors`.
 * Worked example (ours): 157.1 kN across a TIG butt weld in 120 mm of 6061-T6, factor 1 with the code's factors on
 * rupture: 11.7 mm by the first answer, 14.61 mm with the further reduction.
 * @throws TemperbookError for a factor, load or section that cannot be, or an outline, which has no one thickness.
 */
export function sizeSection(
  section: WeldedSection,
  loads: SectionLoad | readonly SectionLoad[],
  options: SizeOptions,
): CodeAnswer<SectionSize> {
  const { factor, on, codeFactors = false, stockMm = STOCK_MM } = options;
  requireNumber(factor, 'factor', { low: 1, high: 50 });
  if (!withThickness(section.shape, 1))
    throw new TemperbookError('An outline has no one thickness to size', {
      remedy: 'Change its corners and ask weldedResistance again, or describe it as plates',
    });
  for (const mm of stockMm) requireNumber(mm, 'A stock thickness in mm', { low: 0.3, high: 200 });
  const now = weldedResistance(section, options);
  const highest = Math.min(options.upToMm ?? 60, roomMm(section.shape));
  const at = (mm: number): SizedAt => sizedAt(section, loads, options, mm);
  const present = at(shapeThicknessMm(section.shape));
  const holds = ({ factor: found, slenderWalls }: SizedAt): boolean =>
    found !== null && found.low >= factor * (1 - 1e-9) && slenderWalls.length === 0;

  const edges = [
    THINNEST_MM,
    ...codeSteps(options).filter((mm) => mm > THINNEST_MM && mm < highest),
    highest,
  ];
  const reachesMm: [number, number][] = [];
  let best = present;
  let answered: SizedAt | null = present.factor ? present : null;
  for (let i = 0; i + 1 < edges.length; i++) {
    const [from, to] = [edges[i]!, edges[i + 1]!];
    const thickest = at(to);
    if (thickest.factor) answered ??= thickest;
    if (lowOf(thickest) > lowOf(best)) best = thickest;
    if (!holds(thickest)) continue;
    const start = leastIn(from, to, (mm) => holds(at(mm)));
    const last = reachesMm[reachesMm.length - 1];
    if (last && last[1] === from && start - from < 1e-3) last[1] = to;
    else reachesMm.push([start, to]);
  }
  // A code that answers at no thickness says why; one that stops somewhere is told in the sizes.
  if (!answered) return now.supported ? { supported: false, why: present.why!, remedy: 'See the code' } : now;
  const inReach = (mm: number): boolean =>
    reachesMm.some(([from, to]) => mm >= from - 1e-9 && mm <= to + 1e-9);
  const stock = [...stockMm].sort((a, b) => a - b).find(inReach);
  const least = reachesMm[0] ? at(reachesMm[0][0]) : null;
  const stocked = stock === undefined ? null : at(stock);
  const chosen = weldedResistance(atThickness(section, (stocked ?? least ?? best).thicknessMm), options);
  return {
    supported: true,
    wanted: { factor, on, codeFactors },
    present,
    least,
    stock: stocked,
    reachesMm,
    best,
    heldByBuckling: least !== null && at(0.995 * least.thicknessMm).slenderWalls.length > 0,
    reachMm: chosen.supported ? chosen.reachMm : null,
    source: chosen.supported ? chosen.source : options.code,
    because: chosen.supported ? chosen.because : [],
  };
}

/** The section at one thickness under its loads. */
export function sizedAt(
  section: WeldedSection,
  loads: SectionLoad | readonly SectionLoad[],
  options: SizeOptions,
  thicknessMm: number,
): SizedAt {
  const resistance = weldedResistance(atThickness(section, thicknessMm), options);
  if (!resistance.supported)
    return {
      thicknessMm,
      factor: null,
      governs: null,
      slenderWalls: [],
      massKgPerM: null,
      why: resistance.why,
    };
  const { on, codeFactors = false } = options;
  const found = sectionFactor(resistance, loads, { on, codeFactors, onlyAsked: codeFactors });
  const density = alloySeries(options.alloy) === 'casting' ? DENSITY.casting : DENSITY.wrought;
  return {
    thicknessMm,
    factor: found.factor,
    governs: found.governs,
    slenderWalls: found.slenderWalls,
    massKgPerM: resistance.full.areaMm2 * 1e-6 * density,
    why: null,
  };
}

/** The section at another thickness, its welds kept on the walls they lie on. */
function atThickness(section: WeldedSection, thicknessMm: number): WeldedSection {
  const shape = withThickness(section.shape, thicknessMm)!;
  if (section.welds.every(({ lies }) => lies === 'across')) return { ...section, shape };
  const [from, to] = [sectionBody(section.shape), sectionBody(shape)];
  return { ...section, shape, welds: section.welds.map((weld) => followWeld(weld, from, to)) };
}

const lowOf = ({ factor }: SizedAt): number => factor?.low ?? -1;

/** Smallest value in (from, to] that holds, to a ten-thousandth of a mm, when more never breaks it. */
function leastIn(from: number, to: number, holds: (mm: number) => boolean): number {
  let [no, yes] = [from, to];
  // Just inside the piece: its lower edge belongs to the one before.
  const inside = from + 1e-6;
  if (holds(inside)) return inside;
  while (yes - no > 1e-4) {
    const middle = (no + yes) / 2;
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}
