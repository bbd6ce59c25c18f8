import { requireNumber } from '../../quantity';
import { alloySeries } from './alloySeries';
import { type CodeAnswer, unsupported } from './codeAnswer';
import { type CodeProcess, codeProcess } from './codeProcess';
import { KNOCK_DOWN_TABLE, type KnockDownRow } from './hazKnockDownTable';
import { type ProductForm, requireForm, rowHoldsForm } from './productForm';

/** Parent metal and process of a weld whose softening is asked. */
export interface KnockDownWeld {
  readonly alloy: string;
  readonly temper: string;
  readonly form: ProductForm;
  readonly process: CodeProcess;
  readonly thicknessMm: number;
}

/** Strength left in the heat-affected zone. */
export interface KnockDown {
  /** Share of the parent's characteristic proof stress left, ρ_o,haz. */
  readonly rhoProof: number;
  /** Share of the parent's ultimate strength left, ρ_u,haz. */
  readonly rhoUltimate: number;
  /** Characteristic strengths of the zone, MPa. */
  readonly proofHazMPa: number;
  readonly ultimateHazMPa: number;
  /** The row of the table before the factors. */
  readonly row: KnockDownRow;
  /** Days at 10 °C or more after welding before the values hold. */
  readonly holdsAfterDays: number;
}

/** Thickness up to which the table holds as printed, mm. */
const HOLDS_TO_MM = { MIG: 15, TIG: 6 } as const;

/**
 * Strength left in the heat-affected zone by EN 1999-1-1 table 3.2 with its footnotes: TIG on 6xxx and 7xxx keeps
 * 0.8 of the table; metal thicker than 6 mm (TIG) or 15 mm (MIG) a further 0.8, on 3xxx and 5xxx 0.9. Temper O loses
 * nothing. It says nothing of where in the zone the minimum lies, and nothing of castings: it gives no factor for
 * welded A356, so that answer is 'unsupported' (one code for highway supports does, see `castingAllowable`).
 *
 * Source: EN 1999-1-1:2007; how each row is known stands in the row, the footnotes are from memory. Worked example:
 * 6061-T6 profile, TIG, 3 mm: ρ_o 0.48 × 0.8 = 0.384.
 * @throws TemperbookError for an unreadable designation, an unknown process or a thickness that cannot be.
 */
export function hazKnockDown(weld: KnockDownWeld): CodeAnswer<KnockDown> {
  const { thicknessMm } = weld;
  const process = codeProcess(weld.process);
  const series = alloySeries(weld.alloy);
  requireNumber(thicknessMm, 'thicknessMm', { low: 0.1, high: 1000 });
  if (series === 'casting')
    return unsupported(
      `EN 1999-1-1 gives no strength left in a welded casting such as ${weld.alloy}.`,
      'Measure hardness across the weld, or test a welded coupon of the same casting; for highway supports see AASHTO LTS',
    );
  const row = findRow(weld);
  if (!row)
    return unsupported(
      `The rows of EN 1999-1-1 table 3.2 known here do not hold ${weld.alloy}-${weld.temper} ${weld.form} of ${Number(thicknessMm.toFixed(3))} mm.`,
      'Look the row up in the standard, or give strengths from your own tests',
    );

  const hardened = series === '6xxx' || series === '7xxx';
  const thick = thicknessMm > HOLDS_TO_MM[process];
  const soft = row.temper === 'O';
  const forTig = process === 'TIG' && hardened && !soft ? 0.8 : 1;
  const forThickness = thick && !soft ? (hardened ? 0.8 : 0.9) : 1;
  const factor = forTig * forThickness;
  return {
    supported: true,
    rhoProof: row.rhoProof * factor,
    rhoUltimate: row.rhoUltimate * factor,
    proofHazMPa: row.proofHazMPa * factor,
    ultimateHazMPa: row.ultimateHazMPa * factor,
    row,
    holdsAfterDays: series === '7xxx' ? 30 : 3,
    source: 'EN 1999-1-1:2007 table 3.2',
    because: [
      `${row.alloy}-${row.temper} ${row.forms}, ${row.overMm > 0 ? `over ${row.overMm} ` : ''}up to ${row.upToMm} mm, MIG: ρ ${row.rhoProof} (proof) and ${row.rhoUltimate} (ultimate).`,
      ...(forTig < 1 ? ['TIG on a precipitation-hardened alloy: times 0.8.'] : []),
      ...(forThickness < 1
        ? [
            `Thicker than the ${HOLDS_TO_MM[process]} mm the table holds for: times a further ${forThickness}.`,
          ]
        : []),
    ],
  };
}

/** The row that holds; for a form said loosely the one with the weakest parent metal. */
function findRow({ alloy, temper, form, thicknessMm }: KnockDownWeld): KnockDownRow | undefined {
  requireForm(form);
  const name = alloy.toUpperCase();
  return KNOCK_DOWN_TABLE.filter(
    (row) =>
      name.includes(row.alloy) &&
      row.temper === temperGroup(temper, form) &&
      rowHoldsForm(row.forms, form) &&
      thicknessMm > row.overMm &&
      thicknessMm <= row.upToMm,
  ).sort((a, b) => a.proofMPa - b.proofMPa)[0];
}

/** Tempers that share a row: T651 with T6, H22 and H32 with H12, H111 with O, and on extrusions F and H112 too. */
function temperGroup(temper: string, form: ProductForm): string {
  const name = temper.toUpperCase();
  if (/^T6(51|511|510)?$/.test(name)) return 'T6';
  if (/^H[123]2$/.test(name)) return 'H12';
  if (/^H[123]4$/.test(name)) return 'H14';
  const soft = form === 'sheet' ? ['H111'] : ['H111', 'H112', 'F'];
  return soft.includes(name) ? 'O' : name;
}
