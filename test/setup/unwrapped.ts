/** A page without the marks around what stays on one line (`keepTogether`): its sentences can be looked for whole. */
export const unwrapped = (page: string): string =>
  page.replace(/<\/?span(?: class="whole"| style="white-space:nowrap")?>/g, '');
