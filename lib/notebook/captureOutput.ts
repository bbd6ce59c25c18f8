import type { OutputPiece } from './messages';

interface TslabDisplay {
  readonly data: { readonly [mime: string]: unknown };
  readonly metadata?: { readonly [key: string]: unknown };
  readonly transient?: { readonly display_id?: string };
}

/**
 * Sends all that cells print or display to `emit`, in order, in place of the terminal. tslab's displays and
 * the kit's `show` end in one function that tslab keeps for the cell being run; a Jupyter kernel sets it
 * likewise.
 */
export function captureOutput(emit: (piece: OutputPiece) => void): void {
  for (const stream of ['stdout', 'stderr'] as const) {
    const decoder = new TextDecoder();
    const write: typeof process.stdout.write = (chunk: string | Uint8Array, ...rest: unknown[]) => {
      const text = typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true });
      if (text !== '') emit({ kind: 'text', stream, text });
      for (const then of rest) if (typeof then === 'function') process.nextTick(then);
      return true;
    };
    process[stream].write = write;
  }
  Object.assign(require('tslab/dist/jupyter'), {
    lastWriteDisplayData: ({ data, metadata = {}, transient }: TslabDisplay, update = false) =>
      emit({ kind: 'display', data, metadata, displayId: transient?.display_id, update }),
  });
}
