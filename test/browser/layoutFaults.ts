/// <reference lib="dom" />
import type { Page } from 'playwright-core';

/**
 * What a reader could not read on a page as it stands: text off the screen, text cut by what holds it, words broken
 * in two, and texts of one figure that lie on each other. Each fault names the text. Letters touch only where boxes meet by more than
 * `slackPx`: a box is taller than its letters.
 */
export const layoutFaults = (page: Page): Promise<string[]> =>
  page.evaluate((slackPx) => {
    const faults: string[] = [];
    const screenPx = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth > screenPx)
      faults.push(`the page scrolls sideways: ${document.documentElement.scrollWidth} of ${screenPx} px`);
    const seen = (element: Element) =>
      element.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true });
    const named = (element: Element) => `"${(element.textContent ?? '').trim().slice(0, 60)}"`;

    const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = words.nextNode(); node; node = words.nextNode()) {
      const holder = node.parentElement;
      if (
        !holder ||
        node.textContent?.trim() === '' ||
        /^(script|style|title)$/i.test(holder.tagName) ||
        !seen(holder)
      )
        continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const { left, right } of Array.from(range.getClientRects()))
        if (left < -1 || right > screenPx + 1) faults.push(`off the screen: ${named(holder)}`);
      if (holder.closest('pre, code, svg')) continue;
      for (const found of node.textContent!.matchAll(/[\p{L}\p{N}]{4,}/gu)) {
        // A hash has no place that is better than another to be parted at.
        if (!/\p{L}{4}/u.test(found[0]) || /^[0-9a-f]{32,}$/.test(found[0])) continue;
        range.setStart(node, found.index!);
        range.setEnd(node, found.index! + found[0].length);
        const [first, ...rest] = Array.from(range.getClientRects());
        if (rest.some(({ top }) => first && top > first.bottom - 2)) faults.push(`broken: "${found[0]}"`);
      }
    }
    for (const element of Array.from(document.querySelectorAll('main *:not(svg, svg *)')))
      if (
        seen(element) &&
        getComputedStyle(element).overflowX !== 'visible' &&
        element.scrollWidth > element.clientWidth + 1
      )
        faults.push(`cut: ${named(element)}`);

    for (const figure of Array.from(document.querySelectorAll('figure'))) {
      const texts = Array.from(figure.querySelectorAll('svg text')).filter(
        (text) => text.textContent?.trim() && seen(text),
      );
      const boxes = texts.map((text) => {
        const { left, right, top, bottom } = text.getBoundingClientRect();
        return { text, left, right, top: top + slackPx, bottom: bottom - slackPx };
      });
      for (const box of boxes) {
        const paper = box.text.closest('svg')!.getBoundingClientRect();
        if (
          box.left < paper.left - 1 ||
          box.right > paper.right + 1 ||
          box.top < paper.top ||
          box.bottom > paper.bottom
        )
          faults.push(`cut at the edge of its figure: ${named(box.text)}`);
      }
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const meet = a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom && b.top < a.bottom;
          if (meet) faults.push(`on each other: ${named(a.text)} and ${named(b.text)}`);
        }
      });
    }
    return faults;
  }, 2.5);
