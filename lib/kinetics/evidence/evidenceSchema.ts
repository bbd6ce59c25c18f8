const text = { type: 'string', minLength: 1 };
const tempC = { type: 'number', minimum: -80, maximum: 660, description: 'a temperature in °C, −80 to 660' };
const timeS = { type: 'number', exclusiveMinimum: 0, description: 'a time in s, more than 0' };

const soak = {
  type: 'object',
  required: ['tempC', 'timeS'],
  additionalProperties: false,
  properties: { tempC, timeS },
};

const cycle = {
  type: 'object',
  required: ['weldCycle'],
  additionalProperties: false,
  properties: {
    weldCycle: {
      type: 'object',
      required: ['peakC', 'heatingCPerS', 'coolingTimeConstantS'],
      additionalProperties: false,
      properties: {
        peakC: tempC,
        heatingCPerS: { type: 'number', exclusiveMinimum: 0, description: 'a heating rate in °C/s' },
        coolingTimeConstantS: timeS,
      },
    },
  },
};

const row = {
  type: 'object',
  required: [
    'id',
    'set',
    'alloys',
    'temper',
    'exposure',
    'property',
    'unit',
    'measured',
    'lot',
    'use',
    'source',
    'known',
  ],
  additionalProperties: false,
  properties: {
    id: text,
    set: { enum: ['softening', 'short', 'ageing', 'natural ageing', 'after welding'] },
    alloys: { type: 'array', minItems: 1, items: text },
    form: text,
    temper: text,
    exposure: {
      type: 'array',
      items: { anyOf: [soak, cycle], description: 'a soak { tempC, timeS } or { weldCycle }' },
    },
    property: { enum: ['yield', 'ultimate'] },
    unit: { enum: ['fraction', 'MPa', '1'], description: 'fraction, MPa, or 1 for the time to a peak' },
    measured: {
      type: 'object',
      required: ['kind', 'value', 'standardError'],
      additionalProperties: false,
      properties: {
        kind: { enum: ['value', 'atLeast', 'below', 'peak'] },
        along: { enum: ['time', 'temperature'], description: 'what was varied to find a peak' },
        value: {
          type: 'number',
          exclusiveMinimum: 0,
          description: 'a number above 0 in the unit of the row',
        },
        standardError: {
          type: 'number',
          exclusiveMinimum: 0,
          description: 'the standard error in the unit of the row, above 0; of a peak in ln t',
        },
      },
    },
    startYieldMPa: { type: 'number', minimum: 10, maximum: 700, description: 'a yield in MPa, 10 to 700' },
    lot: text,
    use: { enum: ['fit', 'heldOut', 'check', 'repeat'] },
    repeats: text,
    source: text,
    known: { enum: ['seen', 'memory', 'derived', 'fitted', 'practice'] },
    note: text,
  },
};

/** JSON Schema (draft 7) of a table of evidence. */
export const EVIDENCE_SCHEMA = {
  type: 'object',
  required: ['title', 'columns', 'rows'],
  additionalProperties: false,
  properties: { title: text, columns: { type: 'object' }, rows: { type: 'array', items: row } },
};
