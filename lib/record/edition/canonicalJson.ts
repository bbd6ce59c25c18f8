/**
 * One text for one value: keys in the order of their UTF-16 units, no white space, numbers and texts as ECMAScript
 * writes them (RFC 8785, JSON Canonicalization Scheme). For plain data that came through JSON.
 * @example canonicalJson({ b: [1, 2.50], a: null }) // "{\"a\":null,\"b\":[1,2.5]}"
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const data = value as Readonly<Record<string, unknown>>;
  const members = Object.keys(data)
    .filter((key) => data[key] !== undefined)
    .sort()
    .map((key) => `${JSON.stringify(key)}:${canonicalJson(data[key])}`);
  return `{${members.join(',')}}`;
}
