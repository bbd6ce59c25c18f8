import { schema } from '../../quantity';
import { PRODUCT_FORMS } from '../codes/productForm';

const { closed, number, numbers, oneWordOf, text, yesOrNo } = schema;

const atLeastOne = (what: string, items: object) => ({ ...schema.listOf(what, items), minItems: 1 });
const mm = (what: string) => number(`${what}, mm`);
const mpa = (what: string) => number(`${what}, MPa`);
const point = (what: string) => numbers(2, `${what}: x and y, mm`);
const polygon = (what: string) => ({ ...schema.listOf(what, point('a corner')), minItems: 3 });

const shape = closed(
  'the section of the part',
  {
    kind: oneWordOf('which shape', [
      'flat bar',
      'round tube',
      'rectangular tube',
      'oval tube',
      'channel',
      'plates',
      'outline',
    ]),
  },
  {
    widthMm: mm('width'),
    thicknessMm: mm('thickness'),
    outsideMm: mm('outside diameter'),
    wallMm: mm('wall'),
    depthMm: mm('depth'),
    flangeMm: mm('width of a flange'),
    flangeThicknessMm: mm('thickness of a flange'),
    cornerMm: mm('radius of a corner, outside'),
    plates: atLeastOne(
      'plates that make up the section',
      closed(
        'a plate by its middle line',
        { fromMm: point('one end'), toMm: point('the other'), thicknessMm: mm('thickness') },
        { name: text('what you call it') },
      ),
    ),
    cornersMm: polygon('the outline, corner by corner'),
    holesMm: schema.listOf('holes in the outline', polygon('a hole, corner by corner')),
  },
);

const weld = closed(
  'a weld on the section',
  {
    lies: oneWordOf('how it lies to the load', ['along', 'across', 'part-way']),
    joint: oneWordOf('which joint', ['butt', 'fillet']),
  },
  {
    atMm: point('where a weld along is'),
    fromMm: point('where a weld part-way begins'),
    toMm: point('where it ends'),
    throatMm: mm('throat of a fillet'),
    heatPathsMm: atLeastOne('ways by which its heat leaves', mm('thickness')),
  },
);

const kept = closed('yield kept, 0 to 1', {
  nominal: number('the middle'),
  low: number('the low end'),
  high: number('the high end'),
});

const metal = closed(
  'metal, process and the code that its strength is from',
  {
    alloy: text('such as 6061'),
    process: oneWordOf('how it is welded', ['MIG', 'TIG', 'TIG AC', 'TIG DC']),
    code: oneWordOf('whose strengths', [
      'EN 1999-1-1',
      'Aluminum Design Manual',
      'AASHTO LTS',
      'soft-zone profile',
      'own tests',
    ]),
  },
  {
    temper: text('such as T6'),
    filler: text('such as 4043'),
    interpassC: number('hottest temperature between passes, °C'),
    extentMm: mm('how far the soft zone reaches'),
    castingFactor: number('factor of the casting'),
    profile: atLeastOne(
      'the soft zone from the weld outwards',
      closed('a place', { distanceMm: mm('distance from the weld'), keptFraction: kept }),
    ),
    own: closed(
      'strengths that you tested',
      {
        proofMPa: mpa('yield of the metal'),
        ultimateMPa: mpa('ultimate of the metal'),
        softProofMPa: mpa('yield of the soft zone'),
        softUltimateMPa: mpa('ultimate of the soft zone'),
        extentMm: mm('how far the soft zone reaches'),
        because: text('what was tested'),
      },
      { weldMetalMPa: mpa('ultimate of the weld metal') },
    ),
  },
);

const load = closed(
  'one load',
  {},
  {
    name: text('what you call it'),
    doubtFraction: number('how uncertain it is, 0.1 for 10 %'),
    axialN: number('pull, N; a push is negative'),
    shearXN: number('shear along x, N'),
    shearYN: number('shear along y, N'),
    momentXNmm: number('moment about x, N mm'),
    momentYNmm: number('moment about y, N mm'),
    torsionNmm: number('torque, N mm'),
    stressMPa: mpa('nominal stress from your own analysis'),
    atMm: point('where that stress is'),
    gradientMPaPerMm: numbers(2, 'how it changes along x and y, MPa/mm'),
  },
);

/** The file of a size, after its units are read. Which key goes with which shape is told by the shape itself. */
export const SIZE_JOB_SCHEMA = closed(
  undefined,
  {
    section: closed(
      'the welded section',
      { shape },
      {
        form: oneWordOf('how the metal was made', [...PRODUCT_FORMS]),
        castBy: oneWordOf('how it was cast', ['sand', 'permanent mould']),
        welds: schema.listOf('welds on it', weld),
      },
    ),
    metal,
    loads: atLeastOne('loads at the joint', load),
    factor: number('the factor of safety wanted, such as 4'),
    on: oneWordOf('what the factor is on', ['yield', 'rupture', 'allowable']),
  },
  {
    name: text('what you call it'),
    codeFactors: yesOrNo('count the factors of the code as well'),
    stockMm: atLeastOne('thicknesses you can get', mm('thickness')),
    upToMm: mm('no thicker than this'),
  },
);
