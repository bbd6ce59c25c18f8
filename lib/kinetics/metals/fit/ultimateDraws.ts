import { loadAlloy } from '../../../alloy';
import type { SeededRandom } from '../../../statistics';
import { type EvidenceRow, evidenceTable } from '../../evidence';
import type { MemberDraw } from '../memberDraw';
import { predictRow, readyRow } from './fitRows';

/** Prior of a, b, c in the loss of ultimate strength a L + b L² + c L³ over the loss L of yield. */
const PRIOR = { mean: [1, -0.6, 0.2], sd: [0.2, 0.6, 0.6] } as const;

/**
 * Draws the ultimate strength that goes with each draw's yield: linear regression on the handbook's ultimate rows and
 * on 6061-O, at the yields the draw itself predicts for them.
 */
export function ultimateDraws(evidence: readonly EvidenceRow[] = evidenceTable()): UltimateDraw {
  const rows = evidence
    .filter(({ use, property, unit }) => use === 'fit' && property === 'ultimate' && unit === 'fraction')
    .map((row) => readyRow({ ...row, property: 'yield' }));
  const { O: soft, T6: hard } = loadAlloy('6061').tempers;
  return (draw, lotClockLn, random) => {
    const points = rows.map((ready) => ({
      loss: 1 - predictRow(draw, ready, lotClockLn),
      ultimateLoss: 1 - ready.row.measured.value,
      error: ready.row.measured.standardError,
    }));
    points.push({
      loss: 1 - draw.floor6061 / hard!.yieldMPa.value,
      ultimateLoss: 1 - soft!.ultimateMPa.value / hard!.ultimateMPa.value,
      error: 0.03,
    });
    const precision = PRIOR.sd.map((sd, i) => PRIOR.sd.map((_, k) => (i === k ? 1 / sd ** 2 : 0)));
    const pull = PRIOR.mean.map((mean, i) => mean / PRIOR.sd[i]! ** 2);
    for (const { loss, ultimateLoss, error } of points) {
      const basis = [loss, loss ** 2, loss ** 3];
      for (let i = 0; i < 3; i++) {
        pull[i]! += (basis[i]! * ultimateLoss) / error ** 2;
        for (let k = 0; k < 3; k++) precision[i]![k]! += (basis[i]! * basis[k]!) / error ** 2;
      }
    }
    return drawNormal(precision, pull, random);
  };
}

/** Draws of the loss of ultimate strength over that of the yield. */
export type UltimateDraw = (
  draw: MemberDraw,
  lotClockLn: number,
  random: SeededRandom,
) => readonly [number, number, number];

/** A draw of the normal with precision P and mean P⁻¹ v, by the Cholesky root of P = L Lᵀ. */
function drawNormal(
  precision: readonly (readonly number[])[],
  pull: readonly number[],
  random: SeededRandom,
): readonly [number, number, number] {
  const root = [0, 1, 2].map(() => [0, 0, 0]);
  for (let i = 0; i < 3; i++)
    for (let k = 0; k <= i; k++) {
      let sum = precision[i]![k]!;
      for (let j = 0; j < k; j++) sum -= root[i]![j]! * root[k]![j]!;
      root[i]![k] = i === k ? Math.sqrt(sum) : sum / root[k]![k]!;
    }
  const half = [0, 0, 0];
  for (let i = 0; i < 3; i++) {
    let sum = pull[i]!;
    for (let j = 0; j < i; j++) sum -= root[i]![j]! * half[j]!;
    half[i] = sum / root[i]![i]!;
  }
  const out = [0, 0, 0];
  for (let i = 2; i >= 0; i--) {
    let sum = half[i]! + random.normal();
    for (let j = i + 1; j < 3; j++) sum -= root[j]![i]! * out[j]!;
    out[i] = sum / root[i]![i]!;
  }
  return [out[0]!, out[1]!, out[2]!];
}
