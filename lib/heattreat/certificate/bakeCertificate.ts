import { type Heat, parseHeats } from '../../exposure';
import {
  celsiusOf,
  dataCheck,
  formatDuration,
  formatTemp,
  refuseProblems,
  schema,
  TemperbookError,
} from '../../quantity';

/** What a coater or heat treater wrote about a bake, without a chart. All texts as they stand on the paper. */
export interface BakeCertificate {
  /** The lot, batch or order it speaks of. */
  readonly lot?: string;
  readonly part?: string;
  /** What the oven was set to, "390F". */
  readonly set?: string;
  /** What the metal was measured to be, "385F"; how many places were measured. */
  readonly metal?: string;
  readonly metalPlaces?: number;
  readonly time?: string;
  /** From when the time counts. */
  readonly counted?: 'from the door' | 'at metal temperature';
  /** Survey of the oven: its class and when. */
  readonly oven?: string;
  readonly surveyed?: string;
  readonly bakes?: number;
  readonly signed?: string;
}

/** What a certificate without a chart is good for. */
export interface CertificateAnswer {
  /** The heat to judge; absent where it does not say enough for one. */
  readonly heat?: Heat;
  /** For `judgeHeats`; absent where the certificate does not name it. */
  readonly oven?: string;
  /** What it must state and does not, each as a question to its writer. */
  readonly asks: readonly string[];
  /** What may be concluded, and what may not. */
  readonly because: readonly string[];
}

const text = (what: string) => ({ ...schema.text(what), minLength: 1 });

/** JSON Schema of a certificate without a chart: all that one may state, as it stands on the paper. */
export const bakeCertificateSchema = schema.closed(
  'what the certificate states: lot, set, metal, time, …',
  {},
  {
    lot: text('the lot, batch or order it speaks of'),
    part: text('what the part is'),
    set: text('what the oven was set to, such as "390F"'),
    metal: text('what the metal was measured to be, such as "385F"'),
    metalPlaces: {
      type: 'integer',
      minimum: 1,
      description: 'a whole number: places where the metal was measured',
    },
    time: text('how long, such as "20min"'),
    counted: schema.oneWordOf('from when the time counts', ['from the door', 'at metal temperature']),
    oven: text('class or tolerance of its last survey, such as "class 5"'),
    surveyed: text('when the oven was surveyed'),
    bakes: { type: 'integer', minimum: 1, maximum: 1000, description: 'a whole number: how many bakes' },
    signed: text('who signs'),
  } satisfies Readonly<Record<keyof BakeCertificate, object>>,
);
const check = dataCheck(bakeCertificateSchema, 'the certificate');

/** What must stand on it, and the question that asks for it. */
const MUST: readonly (readonly [keyof BakeCertificate, string])[] = [
  ['lot', 'Which lot or order is this for?'],
  ['time', 'How long was it in, and from when does that count?'],
  ['counted', 'Does the time count from closing the door, or from when the metal was hot?'],
  [
    'metal',
    'How hot was the metal itself, measured on the heaviest part with a probe under a screw, and in how many places?',
  ],
  ['oven', 'When was the oven last surveyed, and to which class or tolerance?'],
  ['bakes', 'How many bakes did it see, strip and recoat included?'],
  ['signed', 'Who signs for it?'],
];

const plain = (name: string): string => name.toLowerCase().replace(/[\s_-]/g, '');

/**
 * Reads a certificate without a chart: what heat it vouches for, what it leaves out, and what may be concluded. A set point is
 * no metal temperature; without a survey the oven counts as the loosest. It says nothing of another lot.
 * @param lot the lot of the part in hand.
 * @throws TemperbookError for a certificate of another lot, one that names none, and values that cannot be read.
 */
export function bakeCertificate(certificate: BakeCertificate, lot: string): CertificateAnswer {
  refuseProblems('This certificate', check(certificate));
  const { set, metal, time, counted = 'from the door', oven, bakes = 1 } = certificate;
  if (certificate.lot === undefined || plain(certificate.lot) !== plain(lot))
    throw new TemperbookError(
      certificate.lot === undefined ? 'The certificate names no lot' : 'The certificate is of another lot',
      {
        found: certificate.lot === undefined ? 'no lot' : `lot "${certificate.lot}"`,
        expected: `lot "${lot}"`,
        remedy: 'It says nothing of this part: ask for the certificate of its own lot',
      },
    );
  const asks = MUST.flatMap(([key, question]) => (certificate[key] === undefined ? [question] : []));
  const hot = metal ?? set;
  if (hot === undefined || time === undefined)
    return {
      asks,
      because: ['It names no temperature with a time: nothing can be concluded from it about the strength.'],
    };
  celsiusOf(hot, metal === undefined ? 'The set point' : 'The metal temperature');
  const [heat] = parseHeats(
    `${bakes} x ${hot} ${time}${counted === 'at metal temperature' ? ' at metal' : ''}`,
  );
  return {
    heat: heat!,
    ...(oven === undefined ? {} : { oven }),
    asks,
    because: [
      `It vouches for ${bakes === 1 ? 'one bake' : `${bakes} bakes`} at ${formatTemp(heat!.setC)} for ${formatDuration(heat!.timeS)}, counted ${counted}.`,
      metal === undefined
        ? 'The temperature is a set point, not the metal: dial, place in the oven and swing stay open.'
        : `The metal was measured${certificate.metalPlaces === undefined ? ', nobody says in how many places' : ` in ${certificate.metalPlaces} place${certificate.metalPlaces === 1 ? '' : 's'}`}: other places may have been hotter.`,
      'Without a chart it cannot show that nothing hotter happened before, after or in between: keep it with the record as a statement, not as a measurement.',
    ],
  };
}
