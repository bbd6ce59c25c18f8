/** Pieces of JSON Schemas (draft 7); with `what` each says in words what is expected where it stands. */

/** A JSON Schema, or a part of one. */
export type Schema = Readonly<Record<string, unknown>>;

type Keys = Readonly<Record<string, object>>;

const described = (description: string | undefined) => (description === undefined ? {} : { description });

/** A number; `what` says which. */
export const number = (what: string) => ({ type: 'number', description: `a number: ${what}` }) as const;

/** A text; `what` says which. */
export const text = (what: string) => ({ type: 'string', description: `a text: ${what}` }) as const;

/** Yes or no; `what` says to which question. */
export const yesOrNo = (what: string) =>
  ({ type: 'boolean', description: `true or false: ${what}` }) as const;

/** One of a few words; `what` says of what. */
export const oneWordOf = (what: string, words: readonly (string | number)[]) =>
  ({ enum: words, description: what }) as const;

/** A list of any length; `what` says of what. */
export const listOf = (what: string, items: object) =>
  ({ type: 'array', items, description: `a list: ${what}` }) as const;

/** A fixed count of numbers. */
export const numbers = (count: number, what: string) =>
  ({
    type: 'array',
    items: { type: 'number', description: 'a number' },
    minItems: count,
    maxItems: count,
    description: `${count} numbers: ${what}`,
  }) as const;

/** An object with every key named; those in `may` may be missing. */
export const closed = (what: string | undefined, must: Keys, may: Keys = {}) =>
  ({ ...open(what, must, may), additionalProperties: false }) as const;

/** An object that may say more than is asked of it. */
export const open = (what: string | undefined, must: Keys, may: Keys = {}) =>
  ({
    type: 'object',
    properties: { ...must, ...may },
    required: Object.keys(must),
    ...described(what),
  }) as const;

/** An object with exactly one of the keys. */
export const oneOf = (what: string, choices: Keys) =>
  ({ ...closed(what, {}, choices), minProperties: 1, maxProperties: 1 }) as const;

/** An object of any keys, each with a value of the same form. */
export const mapOf = (what: string, values: object) =>
  ({ type: 'object', additionalProperties: values, description: what }) as const;

/** Either a text in short or the same at length. */
export const textOr = (what: string, schema: object) =>
  ({ ...schema, type: ['string', 'object'], description: what }) as const;
