import { type HowKnown, requireNumber } from '../../quantity';
import { alloySeries } from '../codes/alloySeries';
import { FILLERS, type Filler, weldMetal } from '../codes/weldMetal';
import { fillerFacts } from './fillerFacts';

/** A joint whose filler is asked. */
export interface FillerQuestion {
  /** Both parents: 'A356.0' and '6061'. */
  readonly parents: readonly [string, string];
  /** Thickest wall at the weld, mm. */
  readonly wallMm: number;
  /** Solution treated, quenched and aged after welding. */
  readonly reTreated: boolean;
  /** Long service temperature, °C. */
  readonly serviceC?: number;
  readonly anodised?: boolean;
}

/** What speaks for or against a filler. */
export interface FillerReason {
  readonly text: string;
  readonly weight: 'for' | 'against' | 'rules it out';
  readonly source: string;
  readonly known: HowKnown;
}

/** A filler for the joint, with its reasons. */
export interface FillerChoice {
  readonly filler: Filler;
  readonly verdict: 'suits' | 'with care' | 'not here';
  readonly reasons: readonly FillerReason[];
  /** Weld metal strength by EN 1999-1-1 on the wrought parent as welded, MPa; null where no code gives one. */
  readonly weldMetalMPa: number | null;
}

/** Above this a filler with more than 3 % Mg is not for long service, °C (150 °F). */
const WARM_C = 65;
/** Up to this wall a 4043 weld picks up enough Mg from 6061 to age, mm. */
const dilutesUpToMm = (): number => fillerFacts().get('4043')!.dilutesUpToMm!;

const ARMAO = 'F. Armao, practice columns on welding aluminium';
const GUIDE = 'filler guides of the trade';

/**
 * Fillers for a pair of parents, those that suit first: 4043 and 4047 for a casting that is not re-treated, 4008 and
 * 4010 when it is fully re-treated, 4643 for thick 6061 that is, 5356 only cool and as welded. The choice is practice
 * with its sources; the qualified procedure decides.
 * @throws TemperbookError for an unreadable designation or a wall that cannot be.
 */
export function fillerFor(question: FillerQuestion): FillerChoice[] {
  const { parents } = question;
  requireNumber(question.wallMm, 'wallMm', { low: 0.3, high: 200 });
  if (question.serviceC !== undefined) requireNumber(question.serviceC, 'serviceC', { low: -200, high: 400 });
  const wrought = parents.find((alloy) => alloySeries(alloy) !== 'casting');
  const rank = { suits: 0, 'with care': 1, 'not here': 2 };
  return FILLERS.map((filler): FillerChoice => {
    const reasons = reasonsFor(filler, question);
    const out = reasons.some(({ weight }) => weight === 'rules it out');
    const against = reasons.some(({ weight }) => weight === 'against');
    const speaks = reasons.some(({ weight }) => weight === 'for');
    const metal = wrought && !question.reTreated ? weldMetal(wrought, filler) : null;
    return {
      filler,
      verdict: out ? 'not here' : against || !speaks ? 'with care' : 'suits',
      reasons,
      weldMetalMPa: metal?.supported ? metal.tensionMPa : null,
    };
  }).sort((a, b) => rank[a.verdict] - rank[b.verdict]);
}

function reasonsFor(filler: Filler, q: FillerQuestion): FillerReason[] {
  const { parents, wallMm, reTreated, serviceC, anodised } = q;
  const series = parents.map(alloySeries);
  const casting = series.includes('casting');
  const magnesian = parents.some((alloy) => /5083|5086|5456/.test(alloy));
  const sixThousand = series.includes('6xxx');
  const silicon = filler.startsWith('4');
  const reasons: FillerReason[] = [];
  const say = (
    weight: FillerReason['weight'],
    text: string,
    source: string,
    known: HowKnown = 'seen',
  ): void => {
    reasons.push({ text, weight, source, known });
  };
  if ((filler === '4043' || filler === '4047') && casting && !reTreated)
    say('for', 'usual for a 356 casting in a weldment that is not re-treated', ARMAO);
  if ((filler === '4043' || filler === '4047') && casting && reTreated)
    say('against', 'the weld does not answer to the treatment as the casting does', ARMAO);
  if (filler === '4043' && !casting && sixThousand) say('for', 'little cracking, little distortion', GUIDE);
  const dilutedToMm = fillerFacts().get(filler)!.dilutesUpToMm;
  if (dilutedToMm !== undefined && sixThousand && reTreated)
    wallMm <= dilutedToMm
      ? say('for', `up to about ${dilutedToMm} mm it picks up enough Mg from 6061 to age`, ARMAO)
      : say(
          'against',
          `above about ${dilutedToMm} mm the weld's middle takes up too little Mg to age`,
          ARMAO,
        );
  if (filler === '4047') say('for', 'flows well and cracks least; stiffer weld metal', GUIDE, 'memory');
  if (filler === '4643')
    reTreated && sixThousand && wallMm > dilutesUpToMm()
      ? say('for', 'made for thick 6061 that is fully re-treated', ARMAO)
      : say('against', 'no benefit without a full solution treatment, quench and age', ARMAO);
  if (filler === '4008' || filler === '4010')
    casting && reTreated
      ? say(
          'for',
          'near the casting: the weld answers to the treatment as the casting does',
          ARMAO,
          filler === '4008' ? 'seen' : 'memory',
        )
      : say(
          'against',
          'brings nothing over 4043 where nothing is re-treated, and cracks more readily in 6061',
          ARMAO,
          'memory',
        );
  if (silicon && magnesian)
    say('rules it out', 'not on 5xxx with more than 2.5 % Mg: brittle magnesium silicide', GUIDE);
  if (silicon && anodised) say('against', 'anodises dark grey beside the tube', GUIDE, 'memory');
  if (!silicon && anodised) say('for', 'matches 6061 when anodised', GUIDE, 'memory');
  if (!silicon && casting)
    say(
      'rules it out',
      'silicon of the casting and magnesium of the filler make a brittle, crack-prone weld',
      GUIDE,
      'memory',
    );
  if (!silicon && reTreated)
    say(
      'rules it out',
      'does not answer to heat treatment and may become prone to corrosion cracking',
      GUIDE,
    );
  if (fillerFacts().get(filler)!.magnesiumWtPct > 3 && (serviceC === undefined || serviceC > WARM_C))
    serviceC === undefined
      ? say(
          'against',
          `more than 3 % Mg: only if it never runs above ${WARM_C} °C (150 °F) for long, which is not said`,
          GUIDE,
        )
      : say('rules it out', `more than 3 % Mg: not for long service above ${WARM_C} °C (150 °F)`, GUIDE);
  if (!silicon && !casting && !reTreated)
    say('for', filler === '5554' ? 'for warm service' : 'stronger and tougher as welded', GUIDE);
  return reasons;
}
