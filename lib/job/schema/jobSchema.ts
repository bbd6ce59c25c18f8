import { planSchema } from '../../heatflow';
import { schema } from '../../quantity';
import { DISPOSITIONS, JOB_FIELDS, READING_KINDS } from '../../record';
import type { JobFile, SaidRecovery, ShopDefaults } from '../jobFile';
import { checkSchema, heatSchema } from './heatSchema';
import { limitsSchema, measuringSchema, metalSchema, namedProbeSchema, probeSchema } from './probeSchema';
import { readOptionsSchema } from './readOptionsSchema';

const { closed, listOf, mapOf, number, oneWordOf, text, textOr, yesOrNo } = schema;

const positive = (what: string) => ({ ...number(what), exclusiveMinimum: 0 });
const fileOf = (what: string, more: Readonly<Record<string, object>> = {}) =>
  textOr(
    `${what}: its path, or { file, read${Object.keys(more)
      .map((key) => `, ${key}`)
      .join('')} }`,
    closed(
      undefined,
      { file: text('the path of the file, from where this file stands') },
      { read: readOptionsSchema, ...more },
    ),
  );

const readingKind = oneWordOf(
  'what was read: brinell (HB), vickers (HV), rockwellE, rockwellF, rockwellB, webster, conductivity (% IACS), yield (MPa)',
  READING_KINDS,
);
const reading = closed(
  'a bench reading: channel, kind, value, and reference where there is one',
  {
    channel: text('the probe beside which it was read'),
    kind: readingKind,
    value: number('what was read; HB, HV, HRE, HRF, HRB, Webster, % IACS or MPa'),
  },
  {
    reference: number('the same reading on cold metal of this part, in the same unit'),
    standardUncertainty: positive('standard uncertainty of the value, in its unit'),
  },
);

const lot = closed(
  'the lot: name, chart, cards',
  {},
  {
    name: text('name of the lot'),
    chart: fileOf("the heat treater's furnace chart", {
      schedule: text('the schedule it is held against, such as "A356.0 T6"'),
      thicknessMm: positive('heaviest section, mm'),
      sensors: mapOf(
        'sensor of the chart → what it sits in, where its name does not tell',
        oneWordOf('what it sits in', ['load', 'air', 'quench water', 'left out']),
      ),
      next: listOf(
        'the charts that follow it, of the same load',
        fileOf('a chart', {
          pauseH: {
            ...number('time from the end of the chart before, in place of their clocks, h'),
            minimum: 0,
          },
        }),
      ),
    }),
    cards: listOf('what coupons said of this lot', text('the path of a file that temperbook lot wrote')),
  },
);

const earlier = closed(
  'a heat before this one: record, and probes where names differ',
  { record: text("the path of that heat's record, its .json file") },
  {
    probes: mapOf(
      'probe of this log → probe of that record at the same place',
      text('the name of a probe of that record'),
    ),
  },
);

const schedule = (whose: string) =>
  text(`schedule of ${whose}: its name, such as "A356.0 T6 sand casting", or the path of your own (.json)`);
const recovery = closed('what is known of the part, for the question whether it can be saved', {}, {
  schedule: schedule("the casting's temper"),
  wroughtSchedule: schedule('the wrought metal joined to it'),
  solutionTreatments: {
    type: 'integer',
    minimum: 0,
    maximum: 50,
    description: 'a whole number: solution treatments so far, the foundry’s included',
  },
  thinnestWallMm: { ...number('thinnest wall, mm'), minimum: 0.1, maximum: 500 },
  longestMm: { ...number('longest dimension, mm'), minimum: 1, maximum: 50_000 },
  holdsPressure: yesOrNo('does the part hold pressure'),
  fittings: closed(
    'what a furnace or a quench spoils: threads, coating, inserts, machined',
    {},
    {
      threads: yesOrNo('are there threads cut to size'),
      coating: yesOrNo('is there plating, anodising, paint or powder'),
      inserts: yesOrNo('are there bushes, helical inserts, bearings, seals or adhesive'),
      machined: yesOrNo('are there faces or bores machined to size'),
    },
  ),
  uniformityK: { ...number('uniformity of the furnace (either way, K)'), minimum: 0, maximum: 50 },
} satisfies Readonly<Record<keyof SaidRecovery, object>>);

const decision = {
  ...closed(
    'what was decided: disposition, reason, and condition where there is one',
    {
      disposition: oneWordOf('what happens to the part', DISPOSITIONS),
      reason: { ...text('why'), minLength: 1 },
    },
    { condition: { ...text('what must hold'), minLength: 1 } },
  ),
  if: { properties: { disposition: { const: 'accept with condition' } } },
  // biome-ignore lint/suspicious/noThenProperty: the word of JSON Schema
  then: {
    required: ['condition'],
    properties: { condition: { description: 'what must hold, for "accept with condition"' } },
  },
};

/** Lines of the record that a job file says in a key of their own. */
const OWN_KEYS = [
  'job',
  'part',
  'partNumber',
  'serial',
  'priorSolutionTreatments',
  'thinnestWallMm',
  'longestMm',
  'holdsPressure',
  'threads',
  'coating',
  'inserts',
  'machined',
  'uniformityK',
];
const sheet = closed(
  'other lines of the record, each a text or a number',
  {},
  Object.fromEntries(
    Object.entries(JOB_FIELDS)
      .filter(([name]) => !OWN_KEYS.includes(name))
      .map(([name, { label }]) => [name, { type: ['string', 'number'], description: label }]),
  ),
);

const said = {
  $schema: text('the schema of this file, for an editor that completes and checks'),
  metal: metalSchema,
  measuring: measuringSchema,
  limits: limitsSchema,
};

const JOB_KEYS = {
  ...said,
  defaults: text("the path of the shop's defaults, from where this file stands"),
  job: text('number of the job'),
  part: closed(
    'number, name, serial',
    {},
    {
      number: text('part number'),
      name: text('what the part is'),
      serial: text('serial number of this one'),
    },
  ),
  log: fileOf("the logger's file"),
  probes: mapOf('what is said of each probe, by its name in the log', probeSchema),
  lot,
  plan: textOr('the plan of the weld: the path of its file, or the plan itself', planSchema),
  earlier: listOf('heats before this one that were judged, in their order', earlier),
  heats: listOf('heats that nobody logged, in their order: before the log, or all there is', heatSchema),
  check: textOr(
    'a check of the probes before the weld: { log, type, steps }, or the path of a file that says so',
    checkSchema,
  ),
  readings: listOf('bench readings after the heat', reading),
  recovery,
  decision,
  people: mapOf(
    'who signs, by role: { "Decided by": "…", "Checked by": "" }',
    text('a name, or "" for a line to be signed'),
  ),
  sheet,
} satisfies Readonly<Record<keyof JobFile, object>>;

/** JSON Schema (draft 7) of a job file; an editor completes by it. */
export const jobSchema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  title: 'temperbook job file',
  ...closed('an object: log (or heats), metal, measuring, probes, …', {}, JOB_KEYS),
};

/** JSON Schema (draft 7) of a shop's defaults. */
export const defaultsSchema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  title: "temperbook shop's defaults",
  ...closed('an object: metal, measuring, limits, probes', {}, {
    ...said,
    probes: listOf(
      'what is so of probes by a word in their names; the first that fits counts',
      namedProbeSchema,
    ),
  } satisfies Readonly<Record<keyof ShopDefaults, object>>),
};
