import { schema } from '../../../quantity';
import { ARC_EFFICIENCY } from '../../arcEfficiency';

const { closed, listOf, number, numbers, oneOf, text } = schema;

const point = numbers(2, 'a point [x, y], mm');
const name = text('a name');

/** JSON Schema (draft 7) of a `PlanShape`. */
export const shapeSchema = oneOf(
  'one of rectMm [x0, y0, x1, y1], circleMm [x, y, radius], polygonMm [[x, y], …]',
  {
    rectMm: numbers(4, 'x0, y0, x1, y1, mm'),
    circleMm: numbers(3, 'x, y, radius, mm'),
    polygonMm: listOf('corners [x, y], mm', point),
  },
);

const table = closed(
  '',
  {
    tempC: listOf('temperatures, °C', number('°C')),
    value: listOf('a value for each temperature', number('the value at a temperature')),
  },
  { source: text('where the table comes from') },
);
const property = (unit: string) => ({
  ...table,
  type: ['number', 'object'],
  description: `a number in ${unit}, or a table { tempC: […], value: […] }`,
});
const metal = {
  ...closed(
    'an alloy by name ("6061"), or its properties: densityKgPerM3, conductivityWPerMK, specificHeatJPerKgK, …',
    {
      densityKgPerM3: number('density, kg/m³'),
      conductivityWPerMK: property('W/(m K)'),
      specificHeatJPerKgK: property('J/(kg K)'),
    },
    {
      latentHeatJPerKg: number('heat of melting, J/kg'),
      solidusC: number('melting begins, °C'),
      liquidusC: number('melting ends, °C'),
      source: text('where the numbers come from'),
    },
  ),
  type: ['string', 'object'],
};

const region = closed(
  'a region of the part: shape, thicknessMm, metal',
  { shape: shapeSchema, thicknessMm: number('metal thickness, mm; 0 cuts a hole'), metal },
  { name, topMm: number('height of its upper face, mm; 0 unless given') },
);
const face = { enum: ['top', 'bottom'], description: '"top" or "bottom"' };
const line = {
  ...listOf('a line: two points', point),
  minItems: 2,
  maxItems: 2,
};
const join = closed(
  'a join: edgeMm with toEdgeMm, or edgeMm with ontoMm',
  { edgeMm: line },
  { name, toEdgeMm: line, ontoMm: line, face },
);
const moment = {
  ...closed(
    'a moment: { atS } or { pass, when, afterS }',
    {},
    {
      atS: number('time from the start of the job, s'),
      pass: text('the name of a pass'),
      when: { enum: ['start', 'end'], description: '"start" or "end"' },
      afterS: number('so long after it, s'),
    },
  ),
  dependencies: { pass: ['when'], when: ['pass'], afterS: ['pass'] },
};
const airChange = closed(
  'a change of the air: from, and convectionWPerM2K or ambientC',
  { from: moment },
  {
    convectionWPerM2K: number('convection from then on, W/(m² K)'),
    ambientC: number('temperature of the air from then on, °C'),
  },
);
const surface = closed(
  'the air around the part: convectionWPerM2K, emissivity, ambientC',
  {
    convectionWPerM2K: number('convection, W/(m² K); still air about 8'),
    emissivity: number('0 to 1; bare aluminium about 0.1, oxidised 0.2'),
    ambientC: number('temperature of the air, °C'),
  },
  { rim: { enum: ['exposed', 'insulated'] } },
);
const contact = closed(
  'a clamp or chill: shape, conductanceWPerM2K, bodyC',
  {
    shape: shapeSchema,
    conductanceWPerM2K: number('W/(m² K); bolted dry about 500'),
    bodyC: number('temperature of the clamp or chill, °C'),
  },
  {
    name,
    bodyHeatJPerK: number('heat capacity of the clamp or chill, J/K'),
    faces: { enum: [1, 2] },
    face,
    putOn: moment,
    takenOff: moment,
  },
);
const preheat = closed('a warmed area: shape, tempC', {
  shape: shapeSchema,
  tempC: number('its temperature at the start, °C'),
});
const sourceRadius = {
  ...closed('a radius in mm, or { acrossMm, aheadMm, behindMm }', {
    acrossMm: number('radius across the travel, mm'),
    aheadMm: number('radius ahead of the arc, mm'),
    behindMm: number('radius behind the arc, mm'),
  }),
  type: ['number', 'object'],
};
const along = (what: string) => ({
  ...closed('', {
    atMm: listOf('way from the start, mm', number('mm')),
    value: listOf('a value for each', number('the value there')),
  }),
  type: ['number', 'object'],
  description: `${what}, or { atMm: […], value: […] } where it changes along the path`,
});
const pass = closed(
  'a pass: path, sourceRadiusMm, a pace (travelMmPerS, travelMmPerMin or arcOnS), and netPowerW or amps, volts, process',
  {
    path: listOf('points [x, y] that the arc runs along, mm', point),
    sourceRadiusMm: sourceRadius,
  },
  {
    name,
    travelMmPerS: number('travel speed, mm/s'),
    travelMmPerMin: number('travel speed, mm/min'),
    arcOnS: number('how long the arc burns, s'),
    netPowerW: along('heat that enters the part, W: efficiency × volts × amps'),
    amps: along('welding current, A'),
    volts: number('arc voltage, V'),
    process: { enum: Object.keys(ARC_EFFICIENCY), description: Object.keys(ARC_EFFICIENCY).join(', ') },
    efficiency: number('share of the arc power that enters the part, 0 to 1'),
    face,
    beside: closed('a second path and its share of the heat', {
      path: listOf('points [x, y], mm', point),
      share: number('0 to 1'),
    }),
    fillerMm2: number('cross-section of the filler metal added, mm²'),
    startAfter: {
      ...closed(
        'what the pass waits for: waitS, or interpassC and atProbe, or all three',
        {},
        {
          waitS: number('time from the end of the pass before, s'),
          interpassC: number('the probe must have cooled to this, °C'),
          atProbe: text('the name of a probe of the plan'),
        },
      ),
      dependencies: { interpassC: ['atProbe'], atProbe: ['interpassC'] },
    },
  },
);
const probe = closed(
  'a probe: name, xMm, yMm',
  { name: text('a name of its own'), xMm: number('mm to the right'), yMm: number('mm upwards') },
  {
    face,
    depthMm: number('below the upper face, mm'),
    // Carried by the places of a `traverse`.
    distanceMm: number('distance from the weld, mm'),
  },
);

/** JSON Schema (draft 7) of a `PlatePlan`: its form. What the numbers may be is for `checkPlan`. */
export const planSchema = closed(
  'an object: cellMm, part, surface, initialC, passes, probes, until',
  {
    cellMm: number('edge of the square cells, mm'),
    part: listOf('the regions of the part', region),
    surface,
    initialC: number('temperature of the part at the start, °C'),
    passes: listOf('the weld passes; [] for none', pass),
    probes: listOf('the probes; [] for none', probe),
    until: oneOf('one of coolForS, coolToC', {
      coolForS: number('time after the last pass, s'),
      coolToC: number('the hottest metal is down to this, °C'),
    }),
  },
  {
    about: text('what the plan is'),
    layers: { type: ['number', 'string'], description: 'layers through the thickness: 1 to 32, or "auto"' },
    joins: listOf('edges that go on elsewhere: tubes, T joints, lugs', join),
    airChanges: listOf('changes of the air', airChange),
    contacts: listOf('clamps and chills', contact),
    preheat: listOf('areas that start at another temperature', preheat),
  },
);
