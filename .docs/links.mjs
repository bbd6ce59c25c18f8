import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';

/** Links of a folder of pages that lead to no file, or to no place in it, each as "page: link". Only those within it. */
export function brokenLinks(folder) {
  const pages = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.html'),
  );
  const texts = new Map(
    pages.map((file) => [
      file,
      readFileSync(path.join(folder, file), 'utf8').replace(/<script[\s\S]*?<\/script>/g, ''),
    ]),
  );
  const ids = new Map();
  const idsOf = (file) => {
    if (!ids.has(file))
      ids.set(file, new Set([...texts.get(file).matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id)));
    return ids.get(file);
  };
  return pages.flatMap((file) =>
    [...texts.get(file).matchAll(/<(?:a|img|link)\b[^>]*\s(?:href|src)="([^"]+)"/g)]
      .map(([, link]) => link.replaceAll('&amp;', '&'))
      .filter((link) => !/^[a-z]+:/i.test(link) && !leads(file, link))
      .map((link) => `${file}: ${link}`),
  );

  function leads(from, link) {
    const [target, anchor] = link.split('#');
    const to =
      target === '' ? from : path.normalize(path.join(path.dirname(from), decodeURIComponent(target)));
    const found = statSync(path.join(folder, to), { throwIfNoEntry: false });
    if (!found?.isFile() || !existsSync(path.join(folder, to))) return false;
    return !anchor || !texts.has(to) || idsOf(to).has(decodeURIComponent(anchor));
  }
}
