/** Between a number and what it counts: "91 %", "0.5 in", "12 s". */
const BEFORE_UNIT = /(?<=\d) (?=%|°|(?:mm|in|s|ms|min|h|d|K|kN|MPa|ksi|lbf|ft·lb|kg|kJ|HB|HV|IACS)\b)/g;
/** Short brackets that begin with a number: "(82–103 %)". */
const NUMBERS_IN_BRACKETS = /\([±<>]?\d[^()]{0,22}\)/g;

/** "82–103" and "A356-T6": a browser parts a line after a dash unless a word joiner follows. */
const DASH_WITHIN = /(?<=\d)–(?=\d)|(?<=[\d.])-(?=[TFOW]\d?)/g;

/** A text of which no quantity, and no alloy with its temper, is parted at the end of a line. */
export const keepTogether = (text: string): string =>
  text
    .replace(NUMBERS_IN_BRACKETS, (part) => part.replace(/ /g, '\u00a0'))
    .replace(BEFORE_UNIT, '\u00a0')
    .replace(DASH_WITHIN, '$&\u2060');
