/** Index of the first time after `s`. */
export function firstAfter(timeS: Float64Array, s: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle]! > s) high = middle;
    else low = middle + 1;
  }
  return low;
}
