import type { FaultKind } from '../faultKind';

/** What a logger writes instead of a number, without marks, blanks and case, and what it means. */
const TOKENS: readonly { readonly kind: FaultKind; readonly words: readonly string[] }[] = [
  {
    kind: 'missing field',
    words: ['', '-', '--', '---', '----', '-----', '.', '?', 'blank', 'missing', 'nodata'],
  },
  {
    kind: 'not a number',
    words: [
      'nan',
      'na',
      'null',
      'none',
      'nil',
      'qnan',
      '1qnan',
      '1ind',
      '1qnan0',
      '1ind00',
      'ind',
      'notanumber',
      'invalid',
      'bad',
    ],
  },
  {
    kind: 'open circuit',
    words: [
      'open',
      'opencircuit',
      'opentc',
      'tcopen',
      'oc',
      'otc',
      'burn',
      'burnout',
      'sensorbreak',
      'break',
      'broken',
      'offen',
      'disconnected',
      'unplugged',
      'nosensor',
      'noprobe',
      'nc',
    ],
  },
  {
    kind: 'over range',
    words: [
      'ol',
      'over',
      'overload',
      'overflow',
      'overrange',
      'or',
      'ovl',
      'ovr',
      'ofl',
      'under',
      'underrange',
      'underflow',
      'ur',
      'ul',
      'udr',
      'high',
      'low',
      'hi',
      'lo',
      'inf',
      'infinity',
      'outofrange',
      '1inf',
      '1inf00',
    ],
  },
  {
    kind: 'error token',
    words: [
      'err',
      'error',
      'fault',
      'fail',
      'failed',
      'div/0',
      'value',
      'ref',
      'num',
      'name',
      'notreceived',
      'noread',
      'timeout',
      'comerr',
      'commerr',
      'off',
      'fehler',
      'erreur',
    ],
  },
];

const KIND_OF = new Map(TOKENS.flatMap(({ kind, words }) => words.map((word) => [word, kind] as const)));
const LONGEST_TOKEN = 32;

/** What kind of fault a text stands for; undefined when it is no word of the loggers. "*****" and "#" are error tokens. */
export function tokenKind(text: string): FaultKind | undefined {
  if (text.length > LONGEST_TOKEN) return undefined;
  if (/^[*#]+$/.test(text)) return 'error token';
  if (/^[-–—_. ]*$/.test(text)) return 'missing field';
  return KIND_OF.get(text.toLowerCase().replace(/[\s*#!?.:_"'<>()[\]+-]/g, ''));
}
