import { closeSync, fstatSync, openSync, readSync, type Stats } from 'node:fs';

/** How a followed file stands. */
export type FileState =
  | { readonly is: 'read'; readonly grew: boolean; readonly beganAnew: boolean }
  | { readonly is: 'not there'; readonly grew: boolean }
  | { readonly is: 'locked'; readonly because: string };

/** So much of what was read last is read again each time, bytes: where it differs the file was begun anew. */
const CHECKED = 64;
const FIRST_ROOM = 1 << 16;

/**
 * Follows a file that another program writes: what it appends, and that it begins anew, whether by another file under the
 * same name, by cutting it off, or by writing over it. What was read once is kept, whatever becomes of the file, and so is what a
 * file that loses its name got until then: it is held open between two polls. It is never written to.
 */
export class FollowedFile {
  readonly #path: string;
  #room = Buffer.alloc(FIRST_ROOM);
  #length = 0;
  /** Where the file as it stands now begins in what is kept. */
  #begin = 0;
  #id: string | undefined;
  #held: number | undefined;
  #times = 0;

  constructor(path: string) {
    this.#path = path;
  }

  /** Everything that was read, the files before the present one first, each ended by a line end. */
  get bytes(): Buffer {
    return this.#room.subarray(0, this.#length);
  }

  /** How often the file was begun anew. */
  get restarts(): number {
    return this.#times;
  }

  /** Reads what is new. */
  poll(): FileState {
    const before = this.#length;
    let file: number;
    try {
      file = openSync(this.#path, 'r');
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'ENOENT')) return locked(error);
      this.#readHeld();
      return { is: 'not there', grew: this.#length > before };
    }
    try {
      const found = fstatSync(file);
      if (found.isDirectory()) throw new Error('it is a folder');
      if (this.#id !== idOf(found)) this.#readHeld();
      const beganAnew = this.#length > this.#begin && !this.#goesOn(file, found);
      if (beganAnew) this.#beginAnew();
      this.#id = idOf(found);
      this.#append(file, found.size);
      this.close();
      this.#held = file;
      return { is: 'read', grew: this.#length > before, beganAnew };
    } catch (error) {
      closeSync(file);
      return locked(error);
    }
  }

  /** Lets go of the file; what was read stays. */
  close(): void {
    if (this.#held !== undefined) closeSync(this.#held);
    this.#held = undefined;
  }

  /** What the file followed so far still got after it lost its name. */
  #readHeld(): void {
    if (this.#held === undefined) return;
    try {
      this.#append(this.#held, fstatSync(this.#held).size);
    } catch {
      // On a share that is gone there is no rest to read.
      this.close();
    }
  }

  /** Whether the file still holds what was read of it. */
  #goesOn(file: number, found: Stats): boolean {
    const read = this.#length - this.#begin;
    if (found.size < read) return false;
    // A program may save the whole log again under its name: all of it is compared then.
    const tail = idOf(found) === this.#id ? Math.min(CHECKED, read) : read;
    const now = Buffer.alloc(tail);
    readSync(file, now, 0, tail, read - tail);
    return now.equals(this.#room.subarray(this.#length - tail, this.#length));
  }

  #beginAnew(): void {
    this.#times++;
    if (this.#room[this.#length - 1] !== LINE_END) this.#put(Buffer.from('\n'));
    this.#begin = this.#length;
  }

  #append(file: number, sizeBytes: number): void {
    const from = this.#length - this.#begin;
    if (sizeBytes <= from) return;
    const chunk = Buffer.alloc(sizeBytes - from);
    const read = readSync(file, chunk, 0, chunk.length, from);
    this.#put(chunk.subarray(0, read));
  }

  #put(chunk: Buffer): void {
    if (this.#length + chunk.length > this.#room.length) {
      const wider = Buffer.alloc(2 * (this.#length + chunk.length));
      this.#room.copy(wider, 0, 0, this.#length);
      this.#room = wider;
    }
    chunk.copy(this.#room, this.#length);
    this.#length += chunk.length;
  }
}

const LINE_END = 0x0a;

const locked = (error: unknown): FileState => ({
  is: 'locked',
  because: error instanceof Error ? error.message : String(error),
});

const idOf = ({ dev, ino }: Stats): string => `${dev} ${ino}`;
