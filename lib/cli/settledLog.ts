import { type JudgeOptions, type SettledLog, settleReadings, undecidedError } from '../decision';
import { type ReadOptions, readLog } from '../log';
import { askWay } from './askWay';

/**
 * Reads a log; where the word hangs on how the file is meant, asks on a terminal.
 * @throws TemperbookError elsewhere, with the option and its values.
 */
export async function settledLog(
  path: string,
  given: ReadOptions,
  options: JudgeOptions,
): Promise<SettledLog> {
  let readOptions = given;
  for (;;) {
    const settled = settleReadings(readLog(path, readOptions), (other) => readLog(path, other), options);
    if (!settled.undecided) return settled;
    if (process.stdin.isTTY !== true || process.stderr.isTTY !== true)
      throw undecidedError(settled.undecided);
    readOptions = await askWay(settled.undecided);
  }
}
