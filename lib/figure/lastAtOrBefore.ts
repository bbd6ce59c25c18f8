/** Index of the last of the ascending times that is not later than `atS`; −1 when all are later. */
export function lastAtOrBefore(timeS: Float64Array, atS: number): number {
  let low = -1;
  let high = timeS.length - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if (timeS[mid]! <= atS) low = mid;
    else high = mid - 1;
  }
  return low;
}
