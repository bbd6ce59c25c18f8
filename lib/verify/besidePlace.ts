/** What the place is called when no probe names it: heats in words are of the whole part. */
export const THE_PART = 'the part';

/** Where to measure, in words: beside a probe, or on the part where there was none. */
export const besidePlace = (name: string): string => (name === THE_PART ? `on ${name}` : `beside ${name}`);
