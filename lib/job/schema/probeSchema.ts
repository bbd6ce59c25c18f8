import { schema } from '../../quantity';
import { ATTACHMENT_KINDS } from '../../thermocouple';

const { closed, number, oneWordOf, text, textOr, yesOrNo } = schema;

const positive = (what: string) => ({ ...number(what), exclusiveMinimum: 0 });

/** JSON Schema of a metal and what is known of it. */
export const metalSchema = textOr(
  'alloy and temper in one word, "A356-T6", or { alloy, temper, measuredYieldMPa, … }',
  closed(
    undefined,
    { alloy: text('the alloy, such as "A356", "6061", "A356-T6", or the path of your own card (.json)') },
    {
      temper: text('its temper before this heat, such as "T6"'),
      measuredYieldMPa: positive('yield measured before the heat, MPa'),
      measuredHardnessHV: positive('Vickers hardness before the heat, HV; wrought metal only'),
      certificate: text('the paper that says so'),
    },
  ),
);

const FRACTION = 'a fraction of the rise above the air, 0 to 1';
const attachment = {
  description: `how it is fixed: one of ${ATTACHMENT_KINDS.map((kind) => `"${kind}"`).join(', ')}, or your own number { low, value, high, unit, source, known }`,
  anyOf: [
    { enum: ATTACHMENT_KINDS },
    closed('your own number', {
      low: number(FRACTION),
      value: number(FRACTION),
      high: number(FRACTION),
      unit: oneWordOf('"1": a fraction', ['1']),
      source: text('where the number comes from'),
      known: oneWordOf('how it is known', ['seen', 'memory', 'derived', 'fitted', 'practice']),
    }),
  ],
};

const instrument = oneWordOf('what reads the metal; a thermocouple unless the file says infrared', [
  'thermocouple',
  'infrared on bare metal',
  'infrared on a painted spot',
]);

const PROBE_KEYS = {
  role: oneWordOf('what it reads: "part" (metal, which is judged), "air", or "unused"', [
    'part',
    'air',
    'unused',
  ]),
  attachment,
  metal: metalSchema,
  instrument,
};

/** JSON Schema of what is said of one probe. */
export const probeSchema = {
  ...closed(
    'what is said of one probe: role, attachment, metal, placeMm with placeFrom, …',
    {},
    {
      ...PROBE_KEYS,
      placeMm: { ...number('its distance from the weld, mm'), minimum: 0 },
      placeFrom: oneWordOf('what placeMm is measured from: "centre line" or "toe"', ['centre line', 'toe']),
    },
  ),
  dependencies: { placeMm: ['placeFrom'], placeFrom: ['placeMm'] },
};

/** JSON Schema of what a shop says of probes by a word in their names. */
export const namedProbeSchema = closed(
  'named, a word in the name of the probe, and what is so of it: role, attachment, metal',
  { named: { ...text('a word in the name of the probe, such as "tube"'), minLength: 1 } },
  PROBE_KEYS,
);

/** JSON Schema of how it was measured. */
export const measuringSchema = closed(
  'how it was measured, where the probes do not differ: attachment, thermocouple, ambientC, …',
  {},
  {
    attachment,
    instrument,
    thermocouple: closed('the wire: type, standard, class', {
      type: oneWordOf('letter of the wire', ['B', 'E', 'J', 'K', 'N', 'R', 'S', 'T']),
      standard: oneWordOf('the standard it was made to', ['IEC 60584-1', 'ASTM E230']),
      class: oneWordOf('its class: 1, 2, 3 (IEC), "standard" or "special" (ASTM)', [
        1,
        2,
        3,
        'standard',
        'special',
      ]),
    }),
    ambientC: {
      type: ['number', 'string'],
      description: 'air round the part: °C as a number, or a text with its unit such as "70F"',
    },
    isOven: yesOrNo('the log of an oven or a furnace, whose heat comes and goes over minutes'),
    areMeans: yesOrNo('readings are means over their interval'),
  },
);

/** JSON Schema of what the shop allows. */
export const limitsSchema = closed(
  'limitC, allowanceFraction',
  {},
  {
    limitC: {
      type: ['number', 'string'],
      description: 'the shop limit: °C as a number, or a text with its unit such as "440F"',
    },
    allowanceFraction: {
      type: 'number',
      exclusiveMinimum: 0,
      exclusiveMaximum: 1,
      description: 'yield loss the part can live with, a fraction from 0 to 1; 0.1 is ten per cent',
    },
  },
);
