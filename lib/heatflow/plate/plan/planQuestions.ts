import { arcTimeS, passArc } from './passArc';
import type { PlatePlan } from './platePlan';

/** What welding aluminium by hand or by machine usually stays within; beyond it is asked about, not refused. */
const USUAL = { travelMmPerS: [0.5, 60], netPowerW: [50, 15_000], arcOnS: [0.2, 3600] } as const;
/** Thinner is foil, and thicker is no part of a small shop, mm. */
const THICKNESS_MM = [0.4, 150] as const;

/**
 * Numbers of a plan that can be but hardly are, each as a question with the slip that would explain it. Empty for
 * most plans. `solvePlate` puts them among its notes.
 */
export function planQuestions(plan: PlatePlan): string[] {
  const questions: string[] = [];
  for (const [i, { name = `region ${i + 1}`, thicknessMm }] of plan.part.entries())
    if (thicknessMm > 0 && isOutside(thicknessMm, THICKNESS_MM))
      questions.push(
        `Is ${name} really ${plain(thicknessMm)} mm thick? ${thicknessMm < 1 ? 'Inches want × 25.4.' : 'Metres want × 1000.'}`,
      );
  for (const [i, pass] of plan.passes.entries()) {
    const name = pass.name ?? `pass ${i + 1}`;
    const { lengthMm, arcOnS, meanPowerW } = passArc(pass);
    const speed = lengthMm / arcOnS;
    if (lengthMm > 0 && isOutside(speed, USUAL.travelMmPerS))
      questions.push(
        speed > 1
          ? `Does ${name} really travel at ${plain(speed)} mm/s, ${plain(60 * speed)} mm/min? mm/min belong in travelMmPerMin.`
          : `Does ${name} really travel at ${plain(speed)} mm/s, ${plain(60 * speed)} mm/min?`,
      );
    if (isOutside(meanPowerW, USUAL.netPowerW))
      questions.push(
        meanPowerW < 50
          ? `Does ${name} really bring only ${plain(meanPowerW)} W? Kilowatts want × 1000.`
          : `Does ${name} really bring ${plain(meanPowerW)} W?`,
      );
    if (isOutside(arcTimeS(pass), USUAL.arcOnS))
      questions.push(`Does the arc of ${name} really burn for ${plain(arcOnS)} s?`);
  }
  return questions;
}

const isOutside = (value: number, [low, high]: readonly [number, number]): boolean =>
  value < low || value > high;
const plain = (value: number): string => String(Number(value.toPrecision(3)));
