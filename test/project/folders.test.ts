import { readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const root = path.join(__dirname, '../..');
const MOST = 20;

/** Every folder below one, with how many files lie in it. */
function folders(under: string): { readonly folder: string; readonly files: number }[] {
  const entries = readdirSync(path.join(root, under), { withFileTypes: true });
  return [
    { folder: under, files: entries.filter((entry) => entry.isFile()).length },
    ...entries
      .filter((entry) => entry.isDirectory())
      .flatMap((entry) => folders(path.posix.join(under, entry.name))),
  ];
}

describe('the folders of lib and test', () => {
  const all = [...folders('lib'), ...folders('test')];

  it('are found', () => expect(all.length).toBeGreaterThan(40));

  it(`hold at most ${MOST} files each: more than that is two topics`, () => {
    expect(all.filter(({ files }) => files > MOST).map(({ folder, files }) => `${folder}: ${files}`)).toEqual(
      [],
    );
  });
});
