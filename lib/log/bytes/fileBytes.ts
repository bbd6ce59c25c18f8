import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { TemperbookError } from '../../quantity';

/** The bytes of a file, looked at in pieces, so that a long one need not be held. */
export interface FileBytes {
  readonly length: number;
  /** Bytes [from, to), or to the end; good until the next piece is asked for. */
  piece(from: number, to: number): Buffer;
}

/** Bytes that are in memory anyhow. */
export const heldBytes = (bytes: Buffer): FileBytes => ({
  length: bytes.length,
  piece: (from, to) => bytes.subarray(from, to),
});

/** Bytes [from, to) as bytes of their own. */
export function partOf(bytes: FileBytes, from: number, to: number): FileBytes {
  const length = to - from;
  return { length, piece: (a, b) => bytes.piece(from + a, from + Math.min(b, length)) };
}

/** Bytes read from the disk at once: enough to be quick, few enough to stay in the processor's own memory. */
export const WINDOW_BYTES = 1 << 20;

/** A file on the disk, of which a window is in memory. Of a file that is being added to, what it held when opened. */
export class OpenFile implements FileBytes {
  readonly length: number;
  private readonly handle: number;
  private readonly changedMs: number;
  private buffer = Buffer.allocUnsafe(WINDOW_BYTES);
  private start = 0;
  private end = 0;

  constructor(
    path: string,
    private readonly name: string,
  ) {
    this.handle = openSync(path, 'r');
    const { size, mtimeMs } = fstatSync(this.handle);
    this.length = size;
    this.changedMs = mtimeMs;
  }

  piece(from: number, to: number): Buffer {
    const end = Math.min(to, this.length);
    if (from < this.start || end > this.end) this.fill(from, end);
    return this.buffer.subarray(from - this.start, end - this.start);
  }

  /** @throws TemperbookError when the file is another one by now than the one that was opened. */
  requireUnchanged(): void {
    const { size, mtimeMs } = fstatSync(this.handle);
    if (size < this.length || (size === this.length && mtimeMs !== this.changedMs)) throw this.changed();
  }

  close(): void {
    closeSync(this.handle);
  }

  private fill(from: number, to: number): void {
    const size = Math.min(Math.max(to - from, WINDOW_BYTES), this.length - from);
    if (size > this.buffer.length) this.buffer = Buffer.allocUnsafe(size);
    let filled = 0;
    while (filled < size) {
      const read = readSync(this.handle, this.buffer, filled, size - filled, from + filled);
      if (read === 0) throw this.changed();
      filled += read;
    }
    this.start = from;
    this.end = from + size;
  }

  private changed(): TemperbookError {
    return new TemperbookError('The file was changed while it was read', {
      file: this.name,
      remedy: 'Read it again when nothing writes it over, or read a copy of it',
    });
  }
}
