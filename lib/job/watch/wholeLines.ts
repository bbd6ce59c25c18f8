const LINE_END = 0x0a;
/** Files up to this are read whole each time, bytes; of longer ones the head and so much of the end. */
const SMALL = 1 << 17;
const HEAD = 1 << 14;
const END = 1 << 15;

/** The bytes up to the last line end: the last line may be half written. UTF-16 has a second byte to its line end. */
export function wholeLines(bytes: Buffer): Buffer {
  const last = bytes.lastIndexOf(LINE_END);
  if (last < 0) return bytes.subarray(0, 0);
  const isLittleEndian = bytes[0] === 0xff && bytes[1] === 0xfe;
  return bytes.subarray(0, Math.min(bytes.length, last + (isLittleEndian ? 2 : 1)));
}

/** The first lines of a log and its last ones, enough to tell what it reads now; all of it where it is short. */
export function headAndEnd(lines: Buffer): Buffer {
  if (lines.length <= SMALL || lines[0] === 0xff || lines[0] === 0xfe) return lines;
  const head = wholeLines(lines.subarray(0, HEAD));
  const from = lines.indexOf(LINE_END, lines.length - END) + 1;
  return Buffer.concat([head, lines.subarray(from)]);
}
