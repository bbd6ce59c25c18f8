import { formatPercent } from '../quantity';

/** What one source of doubt does to a value: how far it may bring it down, how far up; both ≥ 0. */
export interface Effect {
  /** What the doubt is about, in words. */
  readonly of: string;
  readonly drop: number;
  readonly rise: number;
}

/** The effect of a doubt whose cases give `values` where the nominal case gives `nominal`. */
export function effect(of: string, nominal: number, values: readonly number[]): Effect {
  return {
    of,
    drop: Math.max(0, ...values.map((value) => nominal - value)),
    rise: Math.max(0, ...values.map((value) => value - nominal)),
  };
}

/**
 * The band of independent doubts: their drops add as squares, and so do their rises (JCGM 100:2008, 5.1.2,
 * with bounds in the place of standard uncertainties, so the band is a bound in the same sense).
 */
export function combineEffects(
  nominal: number,
  effects: readonly Effect[],
): { readonly low: number; readonly high: number } {
  return {
    low: nominal - Math.hypot(...effects.map(({ drop }) => drop)),
    high: nominal + Math.hypot(...effects.map(({ rise }) => rise)),
  };
}

/** Effects below this do not show in a percentage. */
const NOTICEABLE = 0.005;

/** What moves a fraction by half a percent or more, worst first, in sentences. */
export function effectSentences(effects: readonly Effect[]): string[] {
  const told = effects
    .filter(({ drop, rise }) => Math.max(drop, rise) >= NOTICEABLE)
    .sort((a, b) => b.drop - a.drop)
    .map(({ of, drop, rise }) => {
      const parts = [
        drop >= NOTICEABLE ? `down ${formatPercent(drop)}` : '',
        rise >= NOTICEABLE ? `up ${formatPercent(rise)}` : '',
      ];
      return `Doubt about ${of}: ${parts.filter(Boolean).join(', ')}.`;
    });
  return told.length ? told : ['No doubt moves the answer by half a percent.'];
}
