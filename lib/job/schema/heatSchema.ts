import { bakeCertificateSchema } from '../../heattreat';
import { schema } from '../../quantity';
import type { KnownHeat } from '../heats/saidHeat';
import { readOptionsSchema } from './readOptionsSchema';

const { closed, listOf, number, oneWordOf, text, textOr, yesOrNo } = schema;

const span = (what: string) => ({ type: ['number', 'string'], description: `${what} (K), or "±5F"` });

/** JSON Schema of a heat that nobody logged. */
export const heatSchema = textOr(
  'a heat in words, "8 x 390F 1.5h", or { heat, points or certificate, and what is known of it }',
  closed(undefined, {}, {
    heat: text('a heat in words, such as "8 x 390F 1.5h"'),
    points: text('points off a paper chart, or written down: "0min 70F, 12min 395F, 40min 400F"'),
    certificate: bakeCertificateSchema,
    oven: text('"class 5" of its last survey, "±15F" as it was measured, or "kitchen"'),
    wallMm: { ...number('heaviest wall, mm'), exclusiveMinimum: 0 },
    fan: yesOrNo('does a fan move the air'),
    toK: span('how far a point may be off'),
    between: oneWordOf('what stands between the points', ['the curve', 'not known']),
    sticks: listOf('temperature sticks on the metal', text('"400F melted" or "400F not melted"')),
    spots: listOf(
      'readings by hand',
      closed('a reading by hand: kind, tempC, atS, toK', {
        kind: oneWordOf('what read it', ['contact', 'infrared on bare metal', 'infrared on a painted spot']),
        tempC: { type: ['number', 'string'], description: 'what was read: °C, or "385F"' },
        atS: { ...number('when, s from the start of the heat'), minimum: 0 },
        toK: span("what the instrument's sheet promises"),
      }),
    ),
  } satisfies Readonly<Record<keyof KnownHeat, object>>),
);

/** JSON Schema of a check of the probes before a weld. */
export const checkSchema = closed(
  'a check of the probes: log, type, steps',
  {
    log: textOr(
      'the log of the check: its path, or { file, read }',
      closed(undefined, { file: text('the path of the file') }, { read: readOptionsSchema }),
    ),
    steps: listOf('what was done, in order', text('such as "ice water 30s to 90s"')),
  },
  { type: oneWordOf('letter of the wire the logger was set to', ['B', 'E', 'J', 'K', 'N', 'R', 'S', 'T']) },
);
