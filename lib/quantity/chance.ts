/** "62 %"; never surer than "> 99 %" or "< 1 %", because a sample cannot be. */
export function formatChance(chance: number): string {
  const percent = 100 * chance;
  if (percent > 99) return '> 99 %';
  return percent < 1 ? '< 1 %' : `${Math.round(percent)} %`;
}
