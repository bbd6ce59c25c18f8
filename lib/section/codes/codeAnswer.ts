/** What a code says, or plainly that it says nothing. Codes do not cover welded castings; guesses are not made. */
export type CodeAnswer<T> =
  | (T & { readonly supported: true; readonly source: string; readonly because: readonly string[] })
  | {
      readonly supported: false;
      /** Why there is no answer, one sentence. */
      readonly why: string;
      /** What to do instead, one sentence. */
      readonly remedy: string;
    };

/** An answer that the code does not give, with what to do instead. */
export const unsupported = (why: string, remedy: string) => ({ supported: false as const, why, remedy });
