/**
 * Says on stderr how far one piece of work has come: on a terminal in one line that is rewritten and wiped at the end,
 * elsewhere a line per word. Quick work is never heard of (`onProgress`).
 */
export function shareLine(doing: string): {
  readonly tell: (share: number) => void;
  readonly end: () => void;
} {
  const { stderr } = process;
  const rewritable = stderr.isTTY === true;
  let told = '';
  return {
    tell: (share) => {
      const text = `${doing}: ${Math.floor(100 * share)} %`;
      if (text === told) return;
      told = text;
      stderr.write(rewritable ? `\r\x1b[K${text}` : `${text}\n`);
    },
    end: () => {
      if (told !== '' && rewritable) stderr.write('\r\x1b[K');
    },
  };
}
