/** What holds whatever was judged; the first page of a record says it too. */
export const STANDING_CAUTIONS: readonly string[] = [
  'This is an estimate to inform your decision, not a certificate, an inspection or a test. It certifies nothing and replaces no test.',
  'Where people can be hurt if the part fails, a licensed engineer decides, by the code that applies where you are. That code and your customer’s specification go before this.',
];

/** Shown with every verdict and record. */
export const CAUTIONS: readonly string[] = [
  ...STANDING_CAUTIONS,
  'The metal right beside the weld is always softer than what a probe some distance away sees; no probe here has looked at it.',
  'Outside highway supports (AASHTO LTS) no code found gives the strength beside a weld in a 356 or A356 casting: measure the hardness or break a test piece.',
  'A temperature log says nothing about cracks, porosity, lack of fusion or fatigue.',
];
