import { CLOCK_FORMATS, DATE_ORDERS, FAULT_KINDS, TEMP_UNITS } from '../../log';
import { schema } from '../../quantity';
import type { FileReadOptions } from '../fileToRead';

const { closed, listOf, mapOf, number, oneWordOf, text } = schema;

const UNIT = `one of ${TEMP_UNITS.join(', ')}`;

const KEYS = {
  encoding: oneWordOf('the letters of the file: utf-8, utf-16le, utf-16be or windows-1252', [
    'utf-8',
    'utf-16le',
    'utf-16be',
    'windows-1252',
  ]),
  delimiter: oneWordOf('what stands between two columns: "," ";" "\\t" or " "', [',', ';', '\t', ' ']),
  decimal: oneWordOf('the decimal mark, "." or ","', ['.', ',']),
  columns: mapOf('column in the file → name of the channel, or false to leave it aside', {
    type: ['string', 'boolean'],
    description: 'a name, or false',
  }),
  unit: {
    description: `the unit of every temperature column, or of each by name: ${UNIT}`,
    anyOf: [{ enum: TEMP_UNITS }, mapOf('column → its unit', oneWordOf(UNIT, TEMP_UNITS))],
  },
  clock: closed(
    'how the clock is written: column, format, dateOrder',
    {},
    {
      column: {
        type: ['string', 'array'],
        items: text('a column'),
        minItems: 2,
        maxItems: 2,
        description: 'the column of the clock, or [date column, time column]',
      },
      format: oneWordOf('how its times are written', CLOCK_FORMATS),
      dateOrder: oneWordOf('the order of a date', DATE_ORDERS),
    },
  ),
  intervalS: {
    ...number('time from row to row, s; the clock of the file is not used then'),
    exclusiveMinimum: 0,
  },
  riseOverC: number('readings are rises over this temperature, °C'),
  thermocouple: closed(
    'for columns in mV: type, and referenceC or referenceColumn',
    { type: oneWordOf('letter of the wire, B E J K N R S T', ['B', 'E', 'J', 'K', 'N', 'R', 'S', 'T']) },
    {
      referenceC: number('temperature of the cold end, °C'),
      referenceColumn: text('the column that has the temperature of the cold end'),
    },
  ),
  sentinels: listOf('numbers that mean "no reading", in the unit of the file', number('a number')),
  limits: closed(
    'what a reading must keep to be believed: lowC, highC, maxRateCPerS, gapS',
    {},
    {
      lowC: number('coldest reading believed, °C'),
      highC: number('a reading from here on is not believed, °C'),
      maxRateCPerS: number('fastest change believed, °C/s'),
      gapS: number('longest stretch without readings that is bridged, s'),
    },
  ),
  accept: listOf(
    'kinds of fault to let through after a look at the trace',
    oneWordOf('a kind of fault', FAULT_KINDS),
  ),
} satisfies Readonly<Record<keyof FileReadOptions, object>>;

/** JSON Schema of how to read a file. */
export const readOptionsSchema = closed(
  'how to read the file where it leaves something open: unit, clock, columns, …',
  {},
  KEYS,
);
