import { schema } from '../quantity';
import { DISPOSITIONS, READING_KINDS, RECORD_FORM } from './decisionRecord';
import { JOB_FIELDS } from './jobSheet';

const text = { type: 'string' } as const;
const number = { type: 'number' } as const;
const count = { type: 'integer', minimum: 0 } as const;
const fraction = { type: 'number', minimum: 0, maximum: 1 } as const;
const chance = { type: ['number', 'null'], minimum: 0, maximum: 1 } as const;
const positive = { type: 'number', exclusiveMinimum: 0 } as const;
const temperature = { type: 'number', exclusiveMinimum: -273.15 } as const;
const sha256 = { type: 'string', pattern: '^[0-9a-f]{64}$' } as const;
const listOf = (items: object) => ({ type: 'array', items }) as const;
type Keys = Readonly<Record<string, object>>;
/** An object of our own, without words: nobody writes a record by hand. */
const closed = (must: Keys, may?: Keys) => schema.closed(undefined, must, may);
/** An object of another room, which may say more than the record needs. */
const open = (must: Keys, may?: Keys) => schema.open(undefined, must, may);

const word = { enum: ['kept', 'uncertain', 'lost'] } as const;
const judgedOf = (value: object) =>
  open({ nominal: value, low: value, high: value, unit: text, because: listOf(text) });
/** Soft metal that is heat-treated again can end at some five times the yield it had. */
const kept = judgedOf({ type: 'number', minimum: 0, maximum: 10 });
const duration = judgedOf({ type: 'number', minimum: 0 });
const sign = closed(
  { says: { enum: ['at least', 'at most', 'about'] }, tempC: temperature, toK: number, because: text },
  { atS: number, fromS: number, toS: number },
);
const exposure = closed(
  {
    timeS: { ...listOf(number), minItems: 1 },
    tempC: { ...listOf(temperature), minItems: 1 },
    gapAfter: listOf(count),
    doubts: listOf(
      closed(
        { kind: text, of: text },
        { spread: open({ shape: text }), shiftK: listOf(number), runsK: listOf(listOf(number)) },
      ),
    ),
    blind: listOf(open({ fromS: number, toS: number, because: text })),
    because: listOf(text),
  },
  { seen: listOf(sign) },
);
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
  yieldKeptFraction: kept,
  yieldMPa: judgedOf({ type: 'number', minimum: 0 }),
  peakC: judgedOf(temperature),
  limits: listOf(
    open({
      name: text,
      limitC: number,
      known: text,
      crossed: { type: 'boolean' },
      timeAboveS: duration,
      meaning: text,
    }),
  ),
  passes: listOf(open({ number: count, peakS: number, peakC: number, interpassC: number })),
  passShare: listOf(fraction),
  coveredS: { type: 'number', minimum: 0 },
  uncoveredS: number,
  asReadFraction: { type: 'number', minimum: 0, maximum: 10 },
  chanceKept: chance,
  blind: listOf(open({ fromS: number, toS: number, because: text })),
  doubts: listOf(open({ kind: text, of: text, drop: number, rise: number })),
  budget: open({ timeAtLimitS: duration, sentence: text }),
  settle: listOf(text),
  exposure,
  earlier: listOf(exposure),
});

const reading = closed(
  { channel: text, kind: { enum: READING_KINDS }, value: { type: 'number', minimum: 0 } },
  { reference: { type: 'number', minimum: 0 }, standardUncertainty: positive },
);
/** Options with which a file is read in one of the ways in which it may be meant. */
const wayToRead = open({ words: text, options: { type: 'object' } });
const openReading = open({
  of: text,
  option: text,
  because: text,
  taken: wayToRead,
  other: { ...listOf(wayToRead), minItems: 1 },
});
const wayOn = open({
  kind: text,
  name: text,
  yieldKeptFraction: { anyOf: [kept, { type: 'null' }] },
  ultimateKeptFraction: { anyOf: [kept, { type: 'null' }] },
  chanceKept: chance,
  timeS: { type: 'number', minimum: 0 },
  permission: { enum: ['possible', 'ask first', 'forbidden'] },
  forbiddenBy: listOf(text),
  askFirst: listOf(text),
  remark: text,
});
const action = open({
  word,
  headline: text,
  place: text,
  chance,
  reason: text,
  asWelded: listOf(open({ name: text, proofMPa: number, sentence: text })),
  plans: listOf(
    open({
      kind: text,
      readings: { anyOf: [count, { type: 'null' }] },
      clearsFrom: { anyOf: [number, { type: 'null' }] },
      lostUpTo: { anyOf: [number, { type: 'null' }] },
      chanceToSettle: fraction,
      falseAccept: fraction,
      falseReject: fraction,
      sentence: text,
    }),
  ),
  now: listOf(text),
  ways: listOf(wayOn),
});
/** Readings that weighed a verdict; absent without any. */
const weighedReadings = open({
  given: listOf(reading),
  effectiveDraws: { type: 'number', minimum: 0 },
  contradicting: listOf(text),
  because: listOf(text),
});

/** What is known of a lot of metal; absent where nothing is. */
const lotWeights = open({ name: text, membersHash: text, weights: listOf(fraction), because: listOf(text) });

/** JSON Schema (draft 7) of a decision record's JSON file. */
export const recordSchema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  title: RECORD_FORM,
  ...closed(
    {
      form: { const: RECORD_FORM },
      hash: sha256,
      partHashes: { type: 'object', additionalProperties: sha256 },
      edition: { type: 'integer', minimum: 1 },
      changes: listOf(closed({ what: text, was: text, now: text })),
      versions: { type: 'object', additionalProperties: text, required: ['temperbook'] },
      job: {
        type: 'object',
        properties: Object.fromEntries(
          Object.keys(JOB_FIELDS).map((name) => [name, { type: ['string', 'number'] }]),
        ),
        additionalProperties: false,
      },
      verdict: open(
        {
          alloy: text,
          temper: text,
          allowanceFraction: fraction,
          verdict: word,
          chanceKept: chance,
          notJudged: listOf(open({ name: text, because: text })),
          sentence: text,
          action,
          channels: { ...listOf(channelVerdict), minItems: 1 },
          openReadings: listOf(openReading),
          fixingNotStated: listOf(text),
          assumptions: listOf(
            open({
              name: text,
              value: text,
              source: text,
              known: { enum: ['seen', 'memory', 'derived', 'fitted', 'practice'] },
            }),
          ),
          cautions: listOf(text),
        },
        { readings: weighedReadings, lots: listOf(lotWeights) },
      ),
      figures: listOf(
        closed({
          caption: text,
          figure: closed({ data: listOf({ type: 'object' }), layout: { type: 'object' } }),
        }),
      ),
      options: listOf(
        closed(
          { name: text, yieldKeptFraction: kept },
          {
            ultimateKeptFraction: { anyOf: [kept, { type: 'null' }] },
            chanceKept: chance,
            verdict: word,
            timeS: { type: 'number', minimum: 0 },
            remark: text,
          },
        ),
      ),
      readings: listOf(reading),
      signOff: listOf(closed({ role: text }, { name: text, date: text })),
    },
    {
      writtenAt: text,
      before: sha256,
      log: closed(
        {
          name: text,
          bytes: count,
          sha256,
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
          { condition: { type: 'string', minLength: 1 }, rule: text },
        ),
        if: { properties: { disposition: { const: 'accept with condition' } } },
        // biome-ignore lint/suspicious/noThenProperty: the word of JSON Schema
        then: { required: ['condition'] },
      },
    },
  ),
};
