/** Keeps the answers to the last `count` arguments of a slow function. */
export function rememberLast<Answer>(
  count: number,
  slow: (values: Float64Array) => Answer,
): (values: Float64Array) => Answer {
  const kept = new Map<string, Answer>();
  return (values) => {
    const key = values.join();
    const known = kept.get(key);
    if (known !== undefined) {
      // Moved to the end: what is used stays.
      kept.delete(key);
      kept.set(key, known);
      return known;
    }
    const answer = slow(values.slice());
    kept.set(key, answer);
    if (kept.size > count) kept.delete(kept.keys().next().value!);
    return answer;
  };
}
