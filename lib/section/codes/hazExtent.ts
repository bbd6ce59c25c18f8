import { formatTemp, MM_PER_INCH, requireNumber, TemperbookError } from '../../quantity';
import { alloySeries } from './alloySeries';
import { type CodeAnswer, unsupported } from './codeAnswer';
import { type CodeProcess, codeProcess } from './codeProcess';

/** A weld as EN 1999-1-1 looks at it. */
export interface HazWeld {
  /** Designation: '6061', 'A356.0'. */
  readonly alloy: string;
  readonly process: CodeProcess;
  readonly joint: 'butt' | 'fillet';
  /** Thickness of every part that leads heat away, mm: two for a butt weld, three for a T. */
  readonly heatPathsMm: readonly number[];
  /** Highest temperature of the part when a pass starts, °C; default 60. */
  readonly interpassC?: number;
  /** From the weld to the nearest free edge parallel to it, mm, when there is one. */
  readonly toFreeEdgeMm?: number;
}

/** How far the softened zone reaches. */
export interface HazExtent {
  /** In every direction from the centre of a butt weld or the root of a fillet, mm. */
  readonly extentMm: number;
  /** Toward the free edge, mm: the whole outstand where the edge is near. Absent without an edge. */
  readonly towardEdgeMm?: number;
}

/** b_haz of EN 1999-1-1 cl. 6.1.6.3 by thickness up to and including the first number, mm. */
const EXTENT: Readonly<Record<'MIG' | 'TIG', readonly (readonly [upToMm: number, extentMm: number])[]>> = {
  MIG: [
    [6, 20],
    [12, 30],
    [25, 35],
    [Infinity, 40],
  ],
  TIG: [[6, 30]],
};
/** Growth of the extent per kelvin of interpass temperature above 60 °C. */
const GROWTH = { '3xxx': 1 / 120, '5xxx': 1 / 120, '6xxx': 1 / 120, '7xxx': 1.5 / 120 } as const;
const HARDNESS = 'Measure a hardness traverse across the weld, or fit the heat flow to a logged cycle';

/**
 * Extent of the heat-affected zone by EN 1999-1-1 (Eurocode 9) cl. 6.1.6.3:
 *
 * - MIG 20, 30, 35, 40 mm for thickness up to 6, 12, 25 mm and above; TIG 30 mm up to 6 mm.
 * - Thickness is the mean of the heat paths, as long as that is at most 1.5 times the thinnest.
 * - Times α₂ for an interpass temperature T of 60–120 °C: 1 + (T − 60)/120, for 7xxx 1 + 1.5 (T − 60)/120.
 * - Fillet welds with n heat paths other than three: times 3/n.
 * - A free edge nearer than three extents: the whole outstand counts as softened.
 *
 * Unsupported, and so answered: castings (this code gives none), TIG above 6 mm, interpass above 120 °C, very unequal
 * thickness, series other than 3xxx, 5xxx, 6xxx, 7xxx.
 *
 * Source: EN 1999-1-1:2007; 20 mm MIG and 30 mm TIG up to 6 mm seen, the rest from memory. Worked example: TIG butt
 * weld of 3 mm 6061 at 90 °C interpass: 30 × 1.25 = 37.5 mm.
 * @throws TemperbookError for a thickness or temperature that cannot be, an unknown process or joint, or a butt weld
 * without two heat paths.
 */
export function hazExtent(weld: HazWeld): CodeAnswer<HazExtent> {
  const { joint, heatPathsMm, interpassC = 60, toFreeEdgeMm } = weld;
  const process = codeProcess(weld.process);
  const series = alloySeries(weld.alloy);
  checkJoint(weld);
  requireNumber(interpassC, 'interpassC', { low: -50, high: 700 });
  if (series === 'casting')
    return unsupported(
      `EN 1999-1-1 gives no extent of the softened zone in a welded casting such as ${weld.alloy}.`,
      HARDNESS,
    );
  if (series === 'other wrought')
    return unsupported(`EN 1999-1-1 gives no extent for ${weld.alloy}.`, HARDNESS);

  const mean = heatPathsMm.reduce((sum, t) => sum + t, 0) / heatPathsMm.length;
  if (mean > 1.5 * Math.min(...heatPathsMm))
    return unsupported(
      `The parts are too unequal for the table: mean ${mean.toFixed(1)} mm is above 1.5 times the thinnest.`,
      HARDNESS,
    );
  const table = EXTENT[process].find(([upToMm]) => mean <= upToMm)?.[1];
  if (table === undefined)
    return unsupported(`EN 1999-1-1 has no TIG extent above 6 mm; here ${mean.toFixed(1)} mm.`, HARDNESS);
  if (interpassC > 120)
    return unsupported(
      `EN 1999-1-1 stops at an interpass temperature of ${formatTemp(120)}.`,
      `Let the part cool further between passes. ${HARDNESS}`,
    );

  const forInterpass = 1 + GROWTH[series] * Math.max(0, interpassC - 60);
  const forPaths = joint === 'fillet' ? 3 / heatPathsMm.length : 1;
  const extentMm = table * forInterpass * forPaths;
  const edge =
    toFreeEdgeMm === undefined ? undefined : requireNumber(toFreeEdgeMm, 'toFreeEdgeMm', { low: 0 });
  const outstand = edge !== undefined && edge < 3 * extentMm;
  return {
    supported: true,
    extentMm,
    ...(edge === undefined ? {} : { towardEdgeMm: outstand ? edge : extentMm }),
    source: 'EN 1999-1-1:2007 cl. 6.1.6.3',
    because: [
      `${process} on ${mean.toFixed(1)} mm: ${table} mm.`,
      ...(forInterpass > 1
        ? [`Interpass temperature of ${formatTemp(interpassC)}: times ${forInterpass.toFixed(3)}.`]
        : []),
      ...(forPaths !== 1
        ? [`${heatPathsMm.length} heat paths at a fillet weld: times ${forPaths.toFixed(2)}.`]
        : []),
      ...(outstand
        ? ['The free edge is nearer than three extents: the whole outstand counts as softened.']
        : []),
    ],
  };
}

/**
 * Extent by practice in the United States: one inch each side of the centre line of a butt weld or the root of a
 * fillet, whatever the process and thickness. Source: H. N. Hill, J. W. Clark & R. J. Brungraber (1960) as used in
 * the Aluminum Design Manual. Not for castings: only AASHTO LTS gives an inch for those, with its own stresses.
 */
export function hazExtentUs(alloy: string): CodeAnswer<HazExtent> {
  if (alloySeries(alloy) === 'casting')
    return unsupported(
      `The one-inch rule was measured on wrought alloys, not on castings such as ${alloy}.`,
      HARDNESS,
    );
  return {
    supported: true,
    extentMm: MM_PER_INCH,
    source: 'Aluminum Design Manual (one-inch rule)',
    because: ['One inch each side of the weld, whatever the process and thickness.'],
  };
}

function checkJoint({ joint, heatPathsMm }: HazWeld): void {
  if (joint !== 'butt' && joint !== 'fillet')
    throw new TemperbookError('The codes know no such joint', {
      found: String(joint),
      expected: 'butt or fillet',
    });
  for (const thickness of heatPathsMm)
    requireNumber(thickness, 'The thickness of a heat path in mm', { low: 0.1, high: 1000 });
  if (joint === 'butt' ? heatPathsMm.length !== 2 : heatPathsMm.length < 1)
    throw new TemperbookError(
      `A ${joint} weld has ${joint === 'butt' ? 'two heat paths' : 'at least one heat path'}`,
      {
        found: `${heatPathsMm.length}`,
        remedy: 'Give the thickness of every part that leads heat away from the weld',
      },
    );
}
