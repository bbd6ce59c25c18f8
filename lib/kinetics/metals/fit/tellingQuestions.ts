import { loadAlloy } from '../../../alloy';
import { isothermal } from '../../../history';
import { advanceMetal } from '../advanceMetal';
import type { MemberDraw } from '../memberDraw';
import { metalOf, namedTemper } from '../metalOf';
import { startOfMetal } from '../startOfMetal';

/** A heat the kit is asked about, and what a draw says is kept. */
export interface TellingQuestion {
  readonly what: string;
  readonly ask: (draw: MemberDraw) => number;
}

const question = (alloy: string, tempC: number, timeS: number): TellingQuestion => ({
  what: `${alloy}-T6 kept after ${timeS} s at ${tempC} °C`,
  ask: (draw) => {
    const card = loadAlloy(alloy);
    const metal = metalOf(draw, card, namedTemper(card, 'T6'));
    return advanceMetal(metal, startOfMetal(metal), isothermal(tempC, timeS)).yieldKept[1]!;
  },
});

/** Short and long heats of tube and casting: the order of the draws is spread in what they keep. */
export const TELLING_QUESTIONS: readonly TellingQuestion[] = [
  question('6061', 300, 10),
  question('A356.0', 260, 600),
  question('6061', 230, 1800),
  question('A356.0', 350, 5),
];
