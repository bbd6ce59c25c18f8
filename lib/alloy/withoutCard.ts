/** What was looked for and found of alloys the kit has no card of, and why that does not make one. */
const WITHOUT_CARD: readonly { readonly names: RegExp; readonly because: string }[] = [
  {
    names: /^(a|e|f)?357(\.0)?$|^alsi7mg0\.6$/,
    because:
      'For 357 and A357 typical T6 strengths, schedules and a yield 17 to 24 % above 356 were found, but nothing measured after a second heat, no hardness and no quench series: a card would be that of A356 with other numbers, and its verdicts would rest on nothing',
  },
  {
    names: /^6005a?$|^enaw6005a?$|^alsimg\(a\)$/,
    because:
      'For 6005A the onset (260 °C) and the worst place (350 °C) of softening beside a weld and screening minima were found, but no ageing series and no strength after a soak: a card would be that of 6061 or 6082 with other numbers, and its verdicts would rest on nothing',
  },
];

/** Why the kit has no card of an alloy it was asked for; undefined where it never looked. `name` as `plainName` has it. */
export function whyNoCard(name: string): string | undefined {
  return WITHOUT_CARD.find(({ names }) => names.test(name.toLowerCase()))?.because;
}
