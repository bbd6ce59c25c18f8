import { schema } from '../../quantity';

const { closed, listOf, number, text } = schema;

const part = closed(
  'a part: name, massKg, specificHeatJPerKgK, startC',
  {
    name: text('a name of its own'),
    massKg: number('kg'),
    specificHeatJPerKgK: number('J/(kg K); aluminium about 900'),
    startC: number('temperature at the start, °C'),
  },
  {
    surface: closed(
      'the skin that loses heat: areaMm2, filmWPerM2K',
      {
        areaMm2: number('area of the skin, mm²'),
        filmWPerM2K: number('convection, W/(m² K); still air 5–10'),
      },
      { emissivity: number('0 to 1') },
    ),
  },
);
const link = closed('a heat path: between, conductanceWPerK', {
  between: {
    ...listOf('the names of two parts', text('the name of a part')),
    minItems: 2,
    maxItems: 2,
  },
  conductanceWPerK: number('W/K'),
});
const pulse = closed('a pulse: part, fromS, toS, powerW', {
  part: text('the name of a part'),
  fromS: number('start, s'),
  toS: number('end, s'),
  powerW: number('W'),
});

/** JSON Schema (draft 7) of a `LumpedJob`: its form. What the numbers may be is for `lumpedSystem`. */
export const lumpedSchema = closed(
  'an object: parts, surroundingsC, untilS',
  {
    parts: listOf('the parts', part),
    surroundingsC: number('temperature of the surroundings, °C'),
    untilS: number('end of the run, s'),
  },
  { links: listOf('heat paths between parts', link), pulses: listOf('heat pulses', pulse) },
);
