import { type HowKnown, TemperbookError } from '../../quantity';
import { DILUTED_TO_MM } from '../../section';

/** How weld metal of a filler takes a heat treatment. */
export interface FillerResponse {
  readonly filler: string;
  /** Does ageing alone, without solution treatment, strengthen it? */
  readonly toAgeing: 'yes' | 'no' | 'harmed' | 'nobody knows';
  /** Does solution treatment, quench and age? */
  readonly toFullTreatment: 'like the casting' | 'by dilution' | 'yes' | 'no' | 'nobody knows';
  /** Thickest metal whose weld picks up enough magnesium from the base, mm. */
  readonly dilutesUpToMm?: number;
  readonly because: string;
  readonly source: string;
  readonly known: HowKnown;
}

const COLUMNS = 'F. Armao, Aluminum Workshop columns (Practical Welding Today, The Fabricator)';
const FULL_ONLY = 'ageing alone does not strengthen the weld metal, it needs a solution treatment';

/** What was found of the common fillers. Nothing stands here that no source says. */
const FILLERS: readonly FillerResponse[] = [
  {
    filler: '4043',
    toAgeing: 'no',
    toFullTreatment: 'by dilution',
    dilutesUpToMm: DILUTED_TO_MM,
    because: `${FULL_ONLY}; in 6061 up to about ${DILUTED_TO_MM} mm it picks up enough magnesium to respond, thick welds do not in their middle`,
    source: COLUMNS,
    known: 'seen',
  },
  {
    filler: '4643',
    toAgeing: 'no',
    toFullTreatment: 'yes',
    because: `${FULL_ONLY}; made for thick 6061 that is fully treated`,
    source: COLUMNS,
    known: 'seen',
  },
  {
    filler: '4008',
    toAgeing: 'nobody knows',
    toFullTreatment: 'like the casting',
    because: 'near A356 in composition: a repair responds as the casting does',
    source: COLUMNS,
    known: 'seen',
  },
  {
    filler: '4010',
    toAgeing: 'nobody knows',
    toFullTreatment: 'like the casting',
    because: 'near A356 in composition: a repair responds as the casting does',
    source: 'composition, as 4008',
    known: 'memory',
  },
  {
    filler: '5554',
    toAgeing: 'no',
    toFullTreatment: 'no',
    because: 'does not respond to heat treatment',
    source: 'filler guide',
    known: 'seen',
  },
  {
    filler: '4047',
    toAgeing: 'nobody knows',
    toFullTreatment: 'nobody knows',
    because: 'used for castings that are not treated again; no source says how it responds',
    source: COLUMNS,
    known: 'seen',
  },
  ...(['5356', '5183', '5556'] as const).map(
    (filler): FillerResponse => ({
      filler,
      toAgeing: 'harmed',
      toFullTreatment: 'no',
      because:
        'does not respond to heat treatment, and with more than 3 % magnesium it should not stay above 66 °C (150 °F)',
      source:
        filler === '5356'
          ? 'filler guide (seen); a solution treatment after it is called mis-practice in industry guides (from memory)'
          : 'magnesium above 3 %, as 5356; from memory',
      known: filler === '5356' ? 'seen' : 'memory',
    }),
  ),
];

/** How a filler responds; one that is not listed, or not said, responds in a way nobody knows. */
export function fillerResponse(filler: string | undefined): FillerResponse {
  if (filler !== undefined && typeof filler !== 'string')
    throw new TemperbookError('The filler is not a name', { found: String(filler), expected: '"4043"' });
  const number = /(?<!\d)(\d{4})(?!\d)/.exec(filler ?? '')?.[1];
  const found = FILLERS.find((one) => one.filler === number);
  if (found) return found;
  return {
    filler: filler ?? 'not said',
    toAgeing: 'nobody knows',
    toFullTreatment: 'nobody knows',
    because: filler === undefined ? 'the filler is not said' : 'nothing was found of this filler',
    source: 'none',
    known: 'practice',
  };
}
