import { type Html, html, trusted } from './html';

/** Nothing is fetched and nothing runs: styles stand in the page. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** A self-contained page without scripts. */
export function stillPage({
  title,
  style,
  body,
}: {
  readonly title: string;
  readonly style: string;
  readonly body: Html;
}): string {
  return html`${trusted('<!doctype html>')}
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(POLICY)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<style>${trusted(style)}</style>
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`.text;
}
