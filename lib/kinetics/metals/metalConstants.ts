import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { AlloyFamily } from '../../alloy';
import type { Sourced } from '../../quantity';

/** What every plausible metal shares and no measured row moves. */
export interface MetalConstants {
  /** The clock of ageing is not carried beyond, °C. */
  readonly agesFastestC: Readonly<Record<AlloyFamily, Sourced>>;
  /** Peak yield of as-cast metal, and of castings aged without solution treatment, over the yield they have. */
  readonly asCastPeakOverStart: Sourced;
  readonly t5PeakOverStart: Sourced;
  /** Standard deviation of a casting's peak yield about that of its alloy, as a share. */
  readonly castPeakScatter: Sourced;
  /** The most of an aged temper's remaining solute that can be in clusters. */
  readonly mostClusteredWhenAged: Sourced;
  /** Standard deviation between lots in the time of ageing, ln. */
  readonly ageingLotScatterLn: Sourced;
  /** Time constant at 250 °C in which metal forgets that it rested, s, and its energy. */
  readonly restForgottenS: Sourced;
  readonly restForgottenJPerMol: Sourced;
}

let own: MetalConstants | undefined;

/** The constants of data/models/metalConstants.json, each with its source. */
export function metalConstants(): MetalConstants {
  own ??= JSON.parse(
    readFileSync(path.join(__dirname, '../../../data/models/metalConstants.json'), 'utf8'),
  ) as MetalConstants;
  return own;
}
