const FIRST = '(?:°F(?:/[sh])?|in(?:/min)?|ksi|lbf|ft·lb|k?J/in)';
const METRIC = '(?:mm|MPa|kN|°C)';

/** Where a text has a number in °C, mm, MPa or kN that does not stand beside what it is in US units; "0.1 °C" is a logger's unit. */
export function metricAlone(text: string): string[] {
  const beside = text
    .replace(new RegExp(`(?<= |\\u00a0)${FIRST}[ \\u00a0]\\([^()]*\\)`, 'g'), '')
    .replace(new RegExp(`(?<= |\\u00a0)${FIRST}, [^(),\\n]*?${METRIC}`, 'g'), '')
    .replace(/\b0\.(?:00)?1[ \u00a0]°C/g, '');
  return (
    beside.match(new RegExp(`.{0,40}\\d[ \\u00a0]${METRIC}(?![\\w²³/·]).{0,20}|.*, ${METRIC}$`, 'gm')) ?? []
  );
}

/** The texts of a page that people read: no scripts, styles and code, and without the names that people gave. */
export function wordsOfPage(html: string, names: readonly string[] = []): string {
  const words = html
    .replace(/<(script|style)\b[\s\S]*?<\/\1>|<pre class="code">[\s\S]*?<\/pre>/g, ' ')
    // Marks within a line are no end of it.
    .replace(/<\/?span\b[^>]*>/g, '')
    .replace(/<[^>]*>/g, '\n')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&')
    .replace(/\u00a0/g, ' ');
  return [...names]
    .filter((name) => new RegExp(`\\d ${METRIC}`).test(name))
    .sort((a, b) => b.length - a.length)
    .reduce((text, name) => text.replaceAll(name, 'NAME'), words);
}
