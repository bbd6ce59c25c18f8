/**
 * One text for one value: keys in the order of their UTF-16 units, no white space, numbers and texts as ECMAScript
 * writes them (RFC 8785, JSON Canonicalization Scheme). For plain data that came through JSON.
 * @example canonicalJson({ b: [1, 2.50], a: null }) // "{\"a\":null,\"b\":[1,2.5]}"
 */
export function canonicalJson(value: unknown): string {
  if (!isBranch(value)) return JSON.stringify(value);
  // Most of a record is long lists of numbers, which have no keys to be put in order.
  if (Array.isArray(value))
    return value.some(isBranch) ? `[${value.map(canonicalJson).join(',')}]` : JSON.stringify(value);
  const data = value as Readonly<Record<string, unknown>>;
  let text = '';
  for (const key of Object.keys(data).sort()) {
    const item = data[key];
    if (item !== undefined) text += `${text && ','}${JSON.stringify(key)}:${canonicalJson(item)}`;
  }
  return `{${text}}`;
}

const isBranch = (value: unknown): value is object => typeof value === 'object' && value !== null;
