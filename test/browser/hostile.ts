/** What a name from a file may hold: markup that would run, ends of what holds it, and signs that break a script. */
export const EVIL = `</script></style></title></svg><img src=x onerror=alert(1)><script>alert(2)</script><svg onload=alert(3)>{{7*7}}\u2028'"&\``;

/** A copy in which every text is changed, told by its keys from the root (`*` for a place in a list). */
export function withTexts<T>(value: T, change: (text: string, at: string) => string, at = ''): T {
  if (typeof value === 'string') return change(value, at) as T;
  if (value === null || typeof value !== 'object' || ArrayBuffer.isView(value)) return value;
  if (Array.isArray(value)) return value.map((one) => withTexts(one, change, `${at}.*`)) as T;
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [key, withTexts(one, change, `${at}.${key}`)]),
  ) as T;
}
