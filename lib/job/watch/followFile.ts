import { closeSync, fstatSync, openSync, readSync, type Stats } from 'node:fs';

/** How a followed file stands. */
export type FileState =
  | { readonly is: 'read'; readonly grew: boolean; readonly beganAnew: boolean }
  | { readonly is: 'not there' }
  | { readonly is: 'locked'; readonly because: string };

/** So much of what was read last is read again each time, bytes: where it differs the file was begun anew. */
const CHECKED = 64;
const FIRST_ROOM = 1 << 16;

/**
 * Follows a file that another program writes: what it appends, and that it begins anew, whether by another file under the
 * same name, by cutting it off, or by writing over it. What was read once is kept, whatever becomes of the file; it is
 * never written to, and is open only while it is read.
 */
export class FollowedFile {
  readonly #path: string;
  #room = Buffer.alloc(FIRST_ROOM);
  #length = 0;
  /** Where the file as it stands now begins in what is kept. */
  #begin = 0;
  #id: string | undefined;
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
    let file: number;
    try {
      file = openSync(this.#path, 'r');
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? String(error.code) : '';
      if (code === 'ENOENT') return { is: 'not there' };
      return { is: 'locked', because: error instanceof Error ? error.message : String(error) };
    }
    try {
      const found = fstatSync(file);
      if (found.isDirectory()) return { is: 'locked', because: 'it is a folder' };
      const beganAnew = this.#length > this.#begin && !this.#goesOn(file, found);
      if (beganAnew) this.#beginAnew();
      this.#id = idOf(found);
      const before = this.#length;
      this.#append(file, found.size - (this.#length - this.#begin));
      return { is: 'read', grew: this.#length > before, beganAnew };
    } catch (error) {
      return { is: 'locked', because: error instanceof Error ? error.message : String(error) };
    } finally {
      closeSync(file);
    }
  }

  /** Whether the file still holds what was read of it. */
  #goesOn(file: number, found: Stats): boolean {
    const read = this.#length - this.#begin;
    if (found.size < read || (this.#id !== undefined && idOf(found) !== this.#id)) return false;
    const tail = Math.min(CHECKED, read);
    const now = Buffer.alloc(tail);
    readSync(file, now, 0, tail, read - tail);
    return now.equals(this.#room.subarray(this.#length - tail, this.#length));
  }

  #beginAnew(): void {
    this.#times++;
    if (this.#room[this.#length - 1] !== LINE_END) this.#put(Buffer.from('\n'));
    this.#begin = this.#length;
  }

  #append(file: number, most: number): void {
    if (most <= 0) return;
    const chunk = Buffer.alloc(most);
    const read = readSync(file, chunk, 0, most, this.#length - this.#begin);
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

const idOf = ({ dev, ino }: Stats): string => `${dev} ${ino}`;
