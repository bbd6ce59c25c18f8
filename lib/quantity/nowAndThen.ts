/** Anything quicker than this needs no word, ms; after it, one word this often. */
const SILENT_MS = 2000;
const EVERY_MS = 500;

/**
 * A listener of progress that is not bothered more than need be: nothing in the first two seconds, then at most twice a
 * second, and never a smaller share (0 to 1) than before.
 */
export function nowAndThen(tell: ((share: number) => void) | undefined): (share: number) => void {
  if (!tell) return () => undefined;
  let next = Date.now() + SILENT_MS;
  let most = 0;
  return (share) => {
    most = Math.max(most, share);
    const now = Date.now();
    if (now < next) return;
    next = now + EVERY_MS;
    tell(most);
  };
}
