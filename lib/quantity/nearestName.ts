/** The one of the names that a word begins ("TC1" for "TC1 block"), else that differs least from it: by case only, or by one or two letters. */
export function nearestName(word: string, names: readonly string[]): string | undefined {
  const begun = names.filter((name) => name.toLowerCase().startsWith(`${word.toLowerCase()} `));
  if (begun.length === 1 && !names.includes(word)) return begun[0];
  const distances = names.map((name) => lettersApart(word.toLowerCase(), name.toLowerCase()));
  const least = Math.min(...distances);
  return least <= 2 ? names[distances.indexOf(least)] : undefined;
}

/** Letters to change, add or take away to make one word of the other (Levenshtein distance). */
function lettersApart(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)));
    row = next;
  }
  return row[b.length]!;
}
