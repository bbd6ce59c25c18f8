import { type AlloyCard, meltsFromC, startTemper } from '../../alloy';
import {
  type Fittings,
  listSchedules,
  type PartPlace,
  planRecovery,
  type RecoveryWay,
} from '../../heattreat';
import { considerRecovery, type RecoveryOption } from '../../planning';
import { knownOptions } from '../../quantity';
import type { StrengthAfter } from '../../strength';
import type { PlaceToJudge } from '../judgeChannel';
import type { ChannelVerdict } from '../verdict';
import { PART_KNOWN, type PartKnown, type WayOn } from './action';

/** Of what a furnace or a quench spoils, nothing said. */
export const NOTHING_SAID: Fittings = { threads: null, coating: null, inserts: null, machined: null };

/** The place a way is worked out for, with the draws of its verdict. */
export interface DecidingPlace {
  readonly channel: PlaceToJudge;
  readonly strength: StrengthAfter;
}

/**
 * The ways to go on with a part: accept, three weeks on the shelf, age again, full treatment, scrap. What the deciding
 * place keeps comes from the draws of its own verdict going on (`considerRecovery`), what forbids a way from the rules of
 * heat treatment (`planRecovery`). What nobody said of the part stands as a question.
 * @throws TemperbookError for something about the part it does not know, and as `planRecovery`.
 */
export function waysOn(
  { channel, strength }: DecidingPlace,
  all: readonly { readonly channel: PlaceToJudge; readonly verdict: ChannelVerdict }[],
  part: PartKnown,
): readonly WayOn[] {
  knownOptions(part, PART_KNOWN, 'What is known of the part');
  const schedule = scheduleOf(channel.card, channel.temper);
  if (!schedule) return [];
  const wrought = all.find((one) => !isCast(one.channel) && one.channel !== channel);
  const wroughtSchedule =
    wrought && isCast(channel) ? scheduleOf(wrought.channel.card, wrought.channel.temper) : undefined;
  const places: PartPlace[] = all.map(({ channel: one, verdict }) => ({
    name: one.name,
    material: isCast(one) ? 'casting' : 'wrought',
    alloy: one.card.designation,
    temper: one.temper,
    peakC: verdict.blind.length > 0 ? null : verdict.peakC.high,
  }));
  const { ways } = planRecovery({
    schedule,
    ...(wroughtSchedule ? { wroughtSchedule } : {}),
    places: [...places, { name: 'the weld', material: 'weld metal', peakC: null }],
    solutionTreatments: null,
    thinnestWallMm: null,
    longestMm: null,
    holdsPressure: null,
    fittings: NOTHING_SAID,
    ...part,
  });
  const considered = strengthsOf(channel, strength);
  return ways
    .filter(({ kind }) => kind !== 'local treatment')
    .map((way) => wayOn(way, considered?.[ORDER.indexOf(way.kind)]));
}

/** The order in which `considerRecovery` answers. */
const ORDER: readonly RecoveryWay['kind'][] = ['accept', 'rest', 'age again', 'full treatment'];

function wayOn(
  { kind, name, permission, objections, remark, timeS }: RecoveryWay,
  option?: RecoveryOption,
): WayOn {
  const against = (weight: 'forbids' | 'ask first'): string[] =>
    objections.filter((one) => one.weight === weight).map(({ what }) => what);
  return {
    kind,
    name: option?.name ?? name,
    yieldKeptFraction: option?.yieldKeptFraction ?? null,
    ultimateKeptFraction: option?.ultimateKeptFraction ?? null,
    chanceKept: option?.chanceKept ?? null,
    timeS: option?.timeS ?? timeS,
    permission,
    forbiddenBy: against('forbids'),
    askFirst: against('ask first'),
    remark: option?.remark ?? remark,
  };
}

const isCast = ({ card }: PlaceToJudge): boolean => card.family !== 'Al-Mg-Si wrought';

/** Name of the schedule that makes a temper of an alloy; undefined where the kit holds none. */
export function scheduleOf(card: AlloyCard, temper: string): string | undefined {
  const { name } = startTemper(card, temper);
  return listSchedules().find((one) => one.alloy === card.designation && one.temper === name)?.name;
}

/** Metal that melted or was never aged in a furnace has no treatment to be asked about. */
function strengthsOf(
  { exposure, card, temper, measuredYieldMPa, allowanceFraction, earlier, history }: PlaceToJudge,
  asWelded: StrengthAfter,
): readonly RecoveryOption[] | undefined {
  const hottestC = history.tempC.reduce((a, b) => Math.max(a, b));
  if (!startTemper(card, temper).entry.ageing || hottestC >= meltsFromC(card)) return undefined;
  return considerRecovery(exposure, {
    alloy: card,
    temper,
    measuredYieldMPa,
    allowanceFraction,
    earlier,
    asWelded,
  });
}
