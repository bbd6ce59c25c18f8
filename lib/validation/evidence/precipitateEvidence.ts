import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { MatrixWtPct } from '../../alloy';
import { ageingEvidence } from './ageingEvidence';
import { overageingEvidence } from './overageingEvidence';

/** One measured fact that the precipitate model is compared with; one is a practice and says so. */
export interface PrecipitateRow {
  readonly id: string;
  readonly alloy: string | { readonly matrixWtPct: MatrixWtPct };
  /** A temper of the card, or freshly quenched. */
  readonly from: string;
  /** Soaks one after the other. */
  readonly exposure: readonly { readonly tempC: number; readonly timeS: number }[];
  /** `yield`, `atLeast`, `below` in MPa; `kept…` as a share of the start; `peak`: it peaks here (ln t). */
  readonly kind: 'yield' | 'atLeast' | 'below' | 'kept' | 'keptAtLeast' | 'keptBelow' | 'peak';
  readonly measured: number;
  readonly standardError: number;
  /** `heldOut`: the fit has not seen it; `why` says why it was kept back. */
  readonly use: 'fit' | 'heldOut';
  readonly why: string;
  readonly source: string;
}

/** Rows that say again, in other words, what a fitted row says, or that are too doubtful to fit. */
const HELD_OUT: readonly [RegExp, string][] = [
  [/^6082/, 'the whole alloy is held out: its manganese dispersoids are in no constant'],
  [/^606[13]-T6-\d/, 'same tests as the rows of yield kept'],
  [/200C-0\.3h/, '18 minutes in which the heating of the piece counts and is not given'],
  [/sand-T6-T7$|^A356-175C-6h \(kept\)/, 'same measurements as the rows of ageing'],
];

/**
 * What shops count on, as loosely as they do: a casting that stayed under 440 °F while it was welded is sold as T6.
 * Without it nothing says how much a minute of such heat takes before more heat gives it back, and fits equally good
 * elsewhere put the loss anywhere from a tenth to a quarter.
 */
const SHOP_RULE: PrecipitateRow = {
  id: 'A356-shop-rule-440F',
  alloy: 'A356.0',
  from: 'T6',
  exposure: [{ tempC: 226.67, timeS: 60 }],
  kind: 'keptAtLeast',
  measured: 0.9,
  standardError: 0.05,
  use: 'fit',
  why: '',
  source: 'common practice, no source',
};

/** Every measured fact, of both tables of evidence and of natural ageing, with what the fit used. */
export function precipitateEvidence(): readonly PrecipitateRow[] {
  const rows: PrecipitateRow[] = [SHOP_RULE];
  const seen = new Set<string>();
  const add = (row: Omit<PrecipitateRow, 'use' | 'why'>, fit: boolean, note: string) => {
    if (seen.has(row.id)) return;
    seen.add(row.id);
    const back = HELD_OUT.find(([pattern]) => pattern.test(row.id))?.[1];
    const use = fit && !back ? 'fit' : 'heldOut';
    rows.push({ ...row, use, why: use === 'fit' ? '' : (back ?? note) });
  };

  for (const row of naturalAgeingRows()) add(row, row.use === 'fit', row.why);
  for (const alloy of ['A356.0', '356.0', '6061', '6063', '6082']) {
    for (const { id, exposure, measured: m, use, source, note = '' } of ageingEvidence(alloy)) {
      const base = { id, alloy, from: 'quenched', exposure, standardError: m.standardError, source };
      add({ ...base, kind: m.kind, measured: m.kind === 'peak' ? 1 : m.yieldMPa }, use === 'fit', note);
    }
    for (const row of overageingEvidence(alloy)) {
      const { exposure, measured: m, use, source, note = '' } = row;
      // Peaks are in the table of ageing; results of this very model are no evidence for it.
      if (row.computed || m.kind === 'peak') continue;
      const kind = m.kind === 'kept' ? 'kept' : m.kind === 'below' ? 'keptBelow' : 'keptAtLeast';
      const id = row.id === 'A356-175C-6h' ? `${row.id} (kept)` : row.id;
      add(
        {
          id,
          alloy,
          from: row.temper,
          exposure,
          kind,
          measured: m.keptFraction,
          standardError: m.standardError,
          source,
        },
        use === 'fit' || row.id === 'A356-paint-bake',
        note,
      );
    }
  }
  return rows;
}

function naturalAgeingRows(): readonly PrecipitateRow[] {
  const file = path.join(__dirname, '../../../data/published/naturalAgeing.json');
  return (JSON.parse(readFileSync(file, 'utf8')) as { rows: PrecipitateRow[] }).rows;
}
