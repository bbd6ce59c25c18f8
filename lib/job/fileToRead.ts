import { resolve } from 'node:path';
import type { ReadOptions } from '../log';

/** How to read a file: `ReadOptions` as far as a file can say them. */
export type FileReadOptions = Omit<ReadOptions, 'onProgress' | 'name'>;

/** A file and how to read it, or its path alone. */
export type FileOf<More = unknown> =
  | string
  | ({ readonly file: string; readonly read?: FileReadOptions } & More);

/** A schedule's name, or the whole path of its file. */
export const schedulePath = (said: string, folder: string): string =>
  /\.json$/i.test(said) ? resolve(folder, said) : said;
