import { loadAlloy } from '../alloy';

/** A word by itself: 'TC4_tube' has it, 'tubercle' has not. */
const word = (words: string): RegExp => new RegExp(`(?<![a-z])(?:${words})(?![a-z])`, 'i');

const TUBE = word('tubes?|tubing|pipes?');
const CASTING = word('blocks?|castings?');
const AIR = word('air|ambient');

/**
 * Whether a probe's name speaks of metal that is not the one given for the part: a tube where that is a casting alloy, a
 * block where it is a wrought one. What it sits on is then asked, never guessed.
 */
export function nameSpeaksOfOther(name: string, alloy: string): boolean {
  return (loadAlloy(alloy).family === 'Al-Si-Mg casting' ? TUBE : CASTING).test(name);
}

/** Whether a probe's name speaks of the air. */
export const nameSpeaksOfAir = (name: string): boolean => AIR.test(name);
