import { DISPOSITIONS, RECORD_FORM } from './decisionRecord';
import { JOB_FIELDS } from './jobSheet';

const text = { type: 'string' } as const;
const number = { type: 'number' } as const;
const count = { type: 'integer', minimum: 0 } as const;
const listOf = (items: object) => ({ type: 'array', items }) as const;
/** An object of our own: every key named; those in `may` may be missing. */
const closed = (must: Readonly<Record<string, object>>, may: Readonly<Record<string, object>> = {}) => ({
  type: 'object',
  properties: { ...must, ...may },
  required: Object.keys(must),
  additionalProperties: false,
});
/** An object of another room, which may say more than the record needs. */
const open = (must: Readonly<Record<string, object>>) => ({
  type: 'object',
  properties: must,
  required: Object.keys(must),
});

const word = { enum: ['kept', 'uncertain', 'lost'] } as const;
const judged = open({ nominal: number, low: number, high: number, unit: text, because: listOf(text) });
const fault = open({
  kind: text,
  row: count,
  lastRow: count,
  column: text,
  value: text,
  reason: text,
  fromS: number,
  toS: number,
});

const channelVerdict = open({
  name: text,
  verdict: word,
  sentence: text,
  yieldKeptFraction: judged,
  yieldMPa: judged,
  peakC: judged,
  limits: listOf(
    open({
      name: text,
      limitC: number,
      known: text,
      crossed: { type: 'boolean' },
      timeAboveS: judged,
      meaning: text,
    }),
  ),
  passes: listOf(open({ number: count, peakS: number, peakC: number, interpassC: number })),
  passShare: listOf(number),
  coveredS: number,
  uncoveredS: number,
  asReadFraction: number,
  chanceKept: { anyOf: [number, { type: 'null' }] },
  blind: listOf(open({ fromS: number, toS: number, because: text })),
  doubts: listOf(open({ kind: text, of: text, drop: number, rise: number })),
  budget: open({ timeAtLimitS: judged, sentence: text }),
  settle: listOf(text),
});

/** JSON Schema (draft 7) of a decision record's JSON file. */
export const recordSchema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  title: RECORD_FORM,
  ...closed(
    {
      form: { const: RECORD_FORM },
      versions: { type: 'object', additionalProperties: text, required: ['temperbook'] },
      job: {
        type: 'object',
        properties: Object.fromEntries(
          Object.keys(JOB_FIELDS).map((name) => [name, { anyOf: [text, number] }]),
        ),
        additionalProperties: false,
      },
      verdict: open({
        alloy: text,
        temper: text,
        allowanceFraction: { type: 'number', minimum: 0, maximum: 1 },
        verdict: word,
        chanceKept: { anyOf: [number, { type: 'null' }] },
        notJudged: listOf(open({ name: text, because: text })),
        sentence: text,
        channels: { ...listOf(channelVerdict), minItems: 1 },
        assumptions: listOf(
          open({
            name: text,
            value: text,
            source: text,
            known: { enum: ['seen', 'memory', 'derived', 'fitted', 'practice'] },
          }),
        ),
        cautions: listOf(text),
      }),
      figures: listOf(
        closed({
          caption: text,
          figure: closed({ data: listOf({ type: 'object' }), layout: { type: 'object' } }),
        }),
      ),
      options: listOf(
        closed(
          { name: text, yieldKeptFraction: judged },
          { chanceKept: { anyOf: [number, { type: 'null' }] }, verdict: word, timeS: number, remark: text },
        ),
      ),
      signOff: listOf(closed({ role: text }, { name: text, date: text })),
    },
    {
      writtenAt: text,
      log: closed(
        {
          name: text,
          bytes: count,
          sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' },
          intervalS: number,
          rows: closed({ read: count, kept: count, flagged: count, rejected: count }),
          channels: listOf(closed({ name: text, sourceUnit: text, samples: count, faults: listOf(fault) })),
          leftAside: listOf(open({ name: text, unit: text, why: text })),
          rowFaults: listOf(fault),
          notes: listOf(text),
        },
        { startedAt: text },
      ),
      decision: {
        ...closed(
          { disposition: { enum: DISPOSITIONS }, reason: { type: 'string', minLength: 1 } },
          { condition: { type: 'string', minLength: 1 } },
        ),
        if: { properties: { disposition: { const: 'accept with condition' } } },
        // biome-ignore lint/suspicious/noThenProperty: the word of JSON Schema
        then: { required: ['condition'] },
      },
    },
  ),
};
