import { type HowKnown, ksiToMpa, MM_PER_INCH, requireNumber } from '../../quantity';
import { type CodeAnswer, unsupported } from './codeAnswer';
import { type ProductForm, requireForm } from './productForm';
import { readFiller } from './weldMetal';

/** Strengths of a wrought metal by the Aluminum Design Manual: parent minima and within an inch of a weld. */
export interface UsStrength {
  readonly proofMPa: number;
  readonly ultimateMPa: number;
  readonly proofWeldedMPa: number;
  readonly ultimateWeldedMPa: number;
  readonly known: HowKnown;
}

/** What is asked. */
export interface UsMetal {
  readonly alloy: string;
  readonly temper: string;
  readonly form: ProductForm;
  readonly filler?: string;
  readonly thicknessMm: number;
}

/** Thickness up to which a 4043 weld on 6061 reaches the higher welded yield, in. */
const LIMIT_4043_IN = 0.375;

/**
 * 6061-T6: parent 35/42 ksi (sheet, ASTM B209, seen) or 35/38 ksi (extrusion and tube, B221, memory); welded ultimate
 * 24 ksi (seen), yield 15 ksi with 5183, 5356, 5556, or with 4043 up to 0.375 in, 11 ksi with 4043 above (memory).
 * 6063-T6: parent 25/30 ksi, T5 16/22 ksi to 12.5 mm (B221, memory), welded 17/8 ksi (memory).
 * A filler nobody said is 4043. 4047, 4643 and others are not in these rows: 'unsupported'.
 *
 * Source: Aluminum Design Manual 2010/2015, Part I, welded properties on a two-inch gauge; editions to 2005 took
 * welded
 * yield on ten inches and multiplied by 0.75 (20 × 0.75 = 15).
 * @example mpaToKsi(usStrength({ alloy: '6061', temper: 'T6', form: 'profile', filler: '4043', thicknessMm: 6
 *   }).proofWeldedMPa) // 15.0
 */
export function usStrength(metal: UsMetal): CodeAnswer<UsStrength> {
  const { alloy, form, thicknessMm } = metal;
  requireForm(form);
  requireNumber(thicknessMm, 'thicknessMm', { low: 0.1, high: 1000 });
  const temper = metal.temper.toUpperCase().replace(/^T65(1|10|11)$/, 'T6');
  const filler = metal.filler === undefined ? '4043' : readFiller(metal.filler);
  const strong = ['5183', '5356', '5556'].includes(filler);
  const name = alloy.toUpperCase();
  const no = (why: string) =>
    unsupported(why, 'Look it up in the manual, or give strengths from your own tests');
  if (name.includes('6061') && temper === 'T6') {
    if (!strong && filler !== '4043')
      return no(`The welded strengths known here do not hold 6061 with ${filler}.`);
    const welded = strong || thicknessMm <= LIMIT_4043_IN * MM_PER_INCH ? 15 : 11;
    return answer(
      [35, form === 'sheet' ? 42 : 38, welded, 24],
      [
        `6061-T6 with ${filler}, ${(thicknessMm / MM_PER_INCH).toFixed(3)} in: welded ${welded} ksi yield, 24 ksi ultimate.`,
        ...(metal.filler === undefined ? ['No filler was named: 4043 is assumed.'] : []),
      ],
    );
  }
  if (
    name.includes('6063') &&
    form !== 'sheet' &&
    (temper === 'T6' || (temper === 'T5' && thicknessMm <= 12.5))
  ) {
    if (filler !== '4043' && filler !== '5356')
      return no(`The welded strengths known here do not hold 6063 with ${filler}.`);
    const [yieldKsi, ultimateKsi] = temper === 'T6' ? [25, 30] : [16, 22];
    return answer(
      [yieldKsi, ultimateKsi, 8, 17],
      [
        `6063-${temper} with ${filler}: welded 8 ksi yield, 17 ksi ultimate.`,
        ...(metal.filler === undefined ? ['No filler was named: 4043 is assumed.'] : []),
      ],
    );
  }
  return no(
    `The rows of the Aluminum Design Manual known here do not hold ${alloy}-${metal.temper} ${form}.`,
  );
}

type Ksi = readonly [proof: number, ultimate: number, proofWelded: number, ultimateWelded: number];

function answer([proof, ultimate, proofWelded, ultimateWelded]: Ksi, because: readonly string[]) {
  return {
    supported: true as const,
    proofMPa: ksiToMpa(proof),
    ultimateMPa: ksiToMpa(ultimate),
    proofWeldedMPa: ksiToMpa(proofWelded),
    ultimateWeldedMPa: ksiToMpa(ultimateWelded),
    known: 'memory' as const,
    source: 'Aluminum Design Manual 2010/2015',
    because,
  };
}
