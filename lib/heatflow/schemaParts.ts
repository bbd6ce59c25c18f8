/** Pieces of the JSON Schemas of plans and jobs; each says in words what is expected where it stands. */

/** A number; `what` says which. */
export const number = (what: string) => ({ type: 'number', description: `a number: ${what}` }) as const;

/** A text; `what` says which. */
export const text = (what: string) => ({ type: 'string', description: `a text: ${what}` }) as const;

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
export const closed = (
  what: string,
  must: Readonly<Record<string, object>>,
  may: Readonly<Record<string, object>> = {},
) =>
  ({
    type: 'object',
    properties: { ...must, ...may },
    required: Object.keys(must),
    additionalProperties: false,
    description: what,
  }) as const;

/** An object with exactly one of the keys. */
export const oneOf = (what: string, choices: Readonly<Record<string, object>>) =>
  ({ ...closed(what, {}, choices), minProperties: 1, maxProperties: 1 }) as const;
