import { formatChance, requireNumber } from '../quantity';
import { conformityProbability, type DecisionRisks, decisionRisks, guardFactor } from '../statistics';

/** What is decided by a number: fixed before it is measured. */
export interface DispositionRule {
  /** What the part must have at least, in `unit`. */
  readonly leastValue: number;
  readonly unit: string;
  /** Chance that is taken that a value right at the acceptance limit is wrong. */
  readonly risk: number;
  readonly standardUncertainty: number;
  /** Accept a measured value from here on; reject one below the second; between them measure better or escalate. */
  readonly acceptFrom: number;
  readonly rejectBelow: number;
  /** Before measuring; absent where nothing is known of such parts. */
  readonly risks?: DecisionRisks;
  readonly sentence: string;
}

/** What a rule is made from. */
export interface RuleFor {
  readonly leastValue: number;
  readonly unit: string;
  /** Of the measured value, and its degrees of freedom where it comes from a few readings. */
  readonly standardUncertainty: number;
  readonly dof?: number;
  /** Default 0.05. */
  readonly risk?: number;
  /** Mean and standard deviation of such parts, as far as they are known before measuring. */
  readonly parts?: { readonly mean: number; readonly standardDeviation: number };
}

/**
 * Guarded acceptance against a least value: accept from leastValue + g u, reject below leastValue − g u, g the one-sided
 * quantile of the risk. For metal tested to destruction take what 95 % of it reaches, 95 % sure (`couponStrength` of the room
 * section with content and confidence 0.95), as the measured value. With a risk of 5 % and a normal error g is 1.645: the default of ISO 14253-1:2017 (95 % for
 * conformity, 95 % against).
 * Source: JCGM 106:2012, clauses 8.3.2 and 8.3.3.
 * @throws TemperbookError as `guardFactor` and `decisionRisks`.
 * @example dispositionRule({ leastValue: 186, unit: 'MPa', standardUncertainty: 4 }).acceptFrom // 192.58
 */
export function dispositionRule(rule: RuleFor): DispositionRule {
  const { leastValue, unit, standardUncertainty, dof, risk = 0.05, parts } = rule;
  requireNumber(leastValue, 'The least value');
  requireNumber(standardUncertainty, 'Standard uncertainty', { low: Number.MIN_VALUE });
  const guard = guardFactor(risk, dof) * standardUncertainty;
  const acceptFrom = leastValue + guard;
  const rejectBelow = leastValue - guard;
  const risks = parts
    ? decisionRisks({ ...parts, standardUncertainty }, { lower: leastValue }, { lower: acceptFrom })
    : undefined;
  const chances = risks
    ? ` Before measuring, a part that has too little is accepted with a chance of ${formatChance(risks.falseAccept)}, a good one is not with one of ${formatChance(risks.falseReject)}.`
    : '';
  return {
    leastValue,
    unit,
    risk,
    standardUncertainty,
    acceptFrom,
    rejectBelow,
    ...(risks ? { risks } : {}),
    sentence: `At least ${leastValue} ${unit} is needed and the value is good to ${standardUncertainty} ${unit} (1 standard deviation). Accept from ${acceptFrom.toFixed(1)} ${unit} on, reject below ${rejectBelow.toFixed(1)} ${unit}, between them measure better or ask: a wrong word at either limit has a chance of ${formatChance(risk)}.${chances}`,
  };
}

/** What a measured value comes to by a rule, and the chance that the part has enough, knowing nothing else of it. */
export function disposition(
  { leastValue, acceptFrom, rejectBelow, standardUncertainty }: DispositionRule,
  value: number,
): { readonly word: 'accept' | 'reject' | 'neither'; readonly chanceEnough: number } {
  const chanceEnough = conformityProbability({ value, standardUncertainty }, { lower: leastValue });
  return { word: value >= acceptFrom ? 'accept' : value < rejectBelow ? 'reject' : 'neither', chanceEnough };
}
