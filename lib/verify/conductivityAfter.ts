import type { AlloyCard } from '../alloy';
import { outcomeOfMetal, startOfMetal } from '../kinetics';
import type { Judged } from '../quantity';
import { bandOfDraws, type Draws } from '../strength';

/** Conductivity to expect after a heat, or why nobody can say. */
export type ConductivityAfter =
  | { readonly iacs: Judged; readonly coldIacs: number }
  | { readonly nobodyKnows: string };

/**
 * Conductivity of wrought metal after a heat, % IACS. Resistivities add (Matthiessen's rule), and the card carries three
 * tempers: aged T6 with fine particles, annealed O with coarse ones, T4 with all solute in solution. So with the shares of
 * the particles that survive, coarsened and dissolved
 *
 *   1/σ = survives/σ(T6) + coarsened/σ(O) + dissolved/σ(T4),
 *
 * and what has aged anew counts as surviving. Derived from typical values of tempers (Aluminum Association, on the cards);
 * no source has measured the way between them, so this weighs no draw: read the sign of the change, not its size. Typical
 * values of one temper spread by 3 % IACS either way from part to part; compare with cold metal of the same part. In
 * castings T6 and T7 are printed within 1 % IACS of each other: nobody knows.
 * @param draws what `strengthAfter` ended in.
 */
export function conductivityAfter(
  { metals, states }: Pick<Draws, 'metals' | 'states'>,
  { card, temper }: { readonly card: AlloyCard; readonly temper: string },
  weights?: Float64Array,
): ConductivityAfter {
  const at = (name: string): number | undefined => card.tempers[name]?.conductivityIacs?.value;
  const [fine, coarse, solution] = [at('T6'), at('O'), at('T4')];
  if (fine === undefined || coarse === undefined || solution === undefined || temper !== 'T6')
    return {
      nobodyKnows:
        card.family === 'Al-Mg-Si wrought'
          ? `No source gives the conductivity of ${card.designation}-${temper} along a heat.`
          : `No source tells tempers of ${card.designation} apart by conductivity: T6 and T7 are printed within 1 % IACS of each other.`,
    };
  const iacs = Float64Array.from(states, (state, i) => {
    const metal = metals[i]!;
    const end = outcomeOfMetal(metal, state, startOfMetal(metal));
    const anew = Math.min(end.dissolvedFraction, end.gainedFraction);
    const resistivity =
      (end.survivingFraction + anew) / fine +
      end.coarsenedFraction / coarse +
      (end.dissolvedFraction - anew) / solution;
    return 1 / resistivity;
  });
  return {
    coldIacs: fine,
    iacs: bandOfDraws(
      iacs,
      '% IACS',
      [
        'Mixed from typical values of T6, T4 and O: nobody measured the way between; read the sign of the change.',
      ],
      weights,
    ),
  };
}
