import { TemperbookError } from '../quantity';
import { UsageError } from './usage';

/** What to tell of an error that is the user's to put right, and the exit code; of any other, a fault of the kit, nothing. */
export function complaintOf(error: unknown): { readonly text: string; readonly code: 1 | 2 } | undefined {
  if (error instanceof TemperbookError)
    return { text: 'excerpt' in error ? `${error.message}\n\n${error.excerpt}` : error.message, code: 1 };
  if (error instanceof UsageError || isParseArgsError(error))
    return { text: `${(error as Error).message}\nFor help: temperbook --help`, code: 2 };
  return undefined;
}

function isParseArgsError(error: unknown): boolean {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');
}
