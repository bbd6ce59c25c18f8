// What the makers of demo files share: numbers that look like chance and come out the same at every run.

/** Even numbers from 0 to 1 of a seed. */
export function randomNumbers(seed) {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Standard normal numbers from even ones (Box and Muller). */
export const normalNumbers = (even) => () =>
  Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());

/** Seconds since midnight as a clock shows them, to the tenth: 09:14:30.5. */
export function timeOfDay(seconds) {
  const two = (n) => String(Math.floor(n)).padStart(2, '0');
  return `${two(seconds / 3600)}:${two((seconds / 60) % 60)}:${(seconds % 60).toFixed(1).padStart(4, '0')}`;
}
