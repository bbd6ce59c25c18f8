import type { ThermalHistory } from '../../history';
import { requireNumber } from '../../quantity';
import { lumpedNetwork } from '../lumped/lumpedNetwork';
import { radiationFilmWPerM2K } from '../surfaceLoss';

/** What of a part decides how fast it follows its oven. */
export interface OvenPart {
  /** Its heaviest wall, mm. */
  readonly wallMm: number;
  /** Whether a fan moves the air. */
  readonly fan?: boolean;
}

/** Film coefficients, W/m² K: gases, free 2–25 and forced 25–250. Source: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table 1.1; from memory. */
const STILL = [2, 25] as const;
const FORCED = [25, 250] as const;
/** Bare to painted aluminium; anodised and painted metal reads 0.92–0.97 in emissivity tables, bare sheet 0.05–0.09. */
const EMISSIVITY = [0.05, 0.95] as const;
/** A356 and 6061 lie within 1 % of one another. */
const DENSITY_KG_PER_M3 = 2690;
const HEAT_J_PER_KG_K = 900;
const SQUARE_MM = 1e6;

/** One of the ways a part may follow its air; 0 is the slowest, 1 the fastest. */
export interface Follower {
  readonly filmWPerM2K: number;
  readonly emissivity: number;
  /** Metal behind each mm² of skin: the whole wall where air reaches one face, half of it where it reaches both, mm. */
  readonly depthMm: number;
}

/** The way at `share` between slowest and fastest. Nobody said whether there is a fan: from still air to a fan. */
export function followerAt({ wallMm, fan }: OvenPart, share: number): Follower {
  requireNumber(wallMm, 'The wall of the part in mm', { low: 0.3, high: 300 });
  const low = fan === true ? FORCED[0] : STILL[0];
  const high = fan === false ? STILL[1] : FORCED[1];
  return {
    filmWPerM2K: low * (high / low) ** share,
    emissivity: EMISSIVITY[0] + share * (EMISSIVITY[1] - EMISSIVITY[0]),
    depthMm: wallMm * (1 - share / 2),
  };
}

/** Temperature of such a part from `startC` in air and walls of `airC` (`lumpedNetwork`). */
export function followAir(
  { filmWPerM2K, emissivity, depthMm }: Follower,
  { startC, airC, untilS }: { readonly startC: number; readonly airC: number; readonly untilS: number },
): ThermalHistory {
  const massKg = (DENSITY_KG_PER_M3 * depthMm) / 1000;
  const { histories } = lumpedNetwork(
    {
      parts: [
        {
          name: 'part',
          massKg,
          specificHeatJPerKgK: HEAT_J_PER_KG_K,
          startC,
          surface: { areaMm2: SQUARE_MM, filmWPerM2K, emissivity },
        },
      ],
      surroundingsC: airC,
      untilS,
    },
    0.5,
  );
  return histories.part!;
}

/** Time constant at a temperature, s: m c / (h + 4 ε σ T³) A. */
export function timeConstantS({ filmWPerM2K, emissivity, depthMm }: Follower, tempC: number): number {
  const radiation = radiationFilmWPerM2K(emissivity, tempC, tempC);
  return ((DENSITY_KG_PER_M3 * depthMm) / 1000) * (HEAT_J_PER_KG_K / (filmWPerM2K + radiation));
}
