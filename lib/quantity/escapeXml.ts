/** Text made safe for XML and HTML, between tags and inside attributes alike. */
export function escapeXml(text: string): string {
  return (
    text
      // Characters XML 1.0 does not allow at all, escaped or not.
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are exactly the characters to drop
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
      .replace(/"/g, '&quot;')
      .replace(/'/g, '&#39;')
  );
}
