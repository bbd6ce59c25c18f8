import { schema } from '../../quantity';

const { closed, listOf, number, oneWordOf } = schema;

const text = (what: string) => ({ ...schema.text(what), minLength: 1 });
const above0 = (what: string) => ({ ...number(`${what}, more than 0`), exclusiveMinimum: 0 });
const atLeastOne = (what: string, items: object) => ({ ...listOf(what, items), minItems: 1 });
const tempC = { ...number('a temperature in °C, −80 to 660'), minimum: -80, maximum: 660 };
const timeS = above0('a time in s');

const soak = closed(undefined, { tempC, timeS });
const cycle = closed(undefined, {
  weldCycle: closed('one pass of a weld', {
    peakC: tempC,
    heatingCPerS: above0('a heating rate in °C/s'),
    coolingTimeConstantS: timeS,
  }),
});

const row = closed(
  'one measured value',
  {
    id: text('what tells the row from all others'),
    set: oneWordOf('what the row is about', [
      'softening',
      'short',
      'ageing',
      'natural ageing',
      'after welding',
    ]),
    alloys: atLeastOne('alloys that the row speaks of', text('the designation of a card')),
    temper: text('the temper before the heat'),
    exposure: listOf('heats in their order', {
      anyOf: [soak, cycle],
      description: 'a soak { tempC, timeS } or { weldCycle }',
    }),
    property: oneWordOf('what was measured', ['yield', 'ultimate']),
    unit: oneWordOf('fraction, MPa, or 1 for the time to a peak', ['fraction', 'MPa', '1']),
    measured: closed(
      'what came out',
      {
        kind: oneWordOf('a value, a bound, or a peak', ['value', 'atLeast', 'below', 'peak']),
        value: above0('the value in the unit of the row'),
        standardError: above0('the standard error in the unit of the row; of a peak in ln t'),
      },
      { along: oneWordOf('what was varied to find a peak', ['time', 'temperature']) },
    ),
    lot: text('rows of one lot share its clock'),
    use: oneWordOf('what the row is for', ['fit', 'heldOut', 'check', 'repeat']),
    source: text('where it was published'),
    known: oneWordOf('how it is known', ['seen', 'memory', 'derived', 'fitted', 'practice']),
  },
  {
    form: text('plate, tube, sand casting, …'),
    startYieldMPa: { ...number('a yield in MPa, 10 to 700'), minimum: 10, maximum: 700 },
    repeats: text('the id of the row that this one repeats'),
    note: text('what else to know'),
  },
);

/** JSON Schema (draft 7) of a table of evidence. */
export const EVIDENCE_SCHEMA = closed('a table of evidence', {
  title: text('what the table holds'),
  columns: schema.open('what each column means', {}),
  rows: listOf('the rows of the table', row),
});
