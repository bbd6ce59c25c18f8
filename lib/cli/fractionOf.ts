import { UsageError } from './usage';

/** `--loss 10` or `--loss 10%` as a fraction. */
export function fractionOf(percent: string): number {
  const [, number] = /^(\d+(?:\.\d+)?) ?%?$/.exec(percent) ?? [];
  if (number === undefined) throw new UsageError(`--loss takes a percentage such as 10, not "${percent}"`);
  return Number(number) / 100;
}
