import { loadAlloy } from '../../alloy';
import type { MetalProperties, PlatePass, PlatePlan, PropertyValue } from '../plate';
import { metalOfRegion, travelMmPerS } from '../plate';

/**
 * What may differ between a plan and the job: each a factor on what the plan says, 1 as planned. Conductivity and heat
 * capacity are those of one metal of the plan where the name says which.
 */
export type PlanKnobs = Readonly<Record<string, number>>;

/** A factor with what was known of it before the job: 5, 50 and 95 of 100 lie below low, nominal, high. */
export interface PlanKnob {
  readonly name: string;
  readonly label: string;
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** A hand-held torch keeps to a speed said beforehand about so well; judgement, a stop-watch (`arcOnS`) does better. */
const HAND_TRAVEL = 0.15;
/** Of properties written into a plan nobody says how sure they are; judgement, about the bands of the alloy cards. */
const OWN_CONDUCTIVITY = 0.1;
const OWN_HEAT = 0.05;

/** What a plan does not know for sure though nobody asks for it: the metals as their cards have them, hand travel. */
export function nuisanceKnobs(plan: PlatePlan): PlanKnob[] {
  const metals = metalsOf(plan);
  const of = (quantity: string, metal: string) => (metals.size === 1 ? quantity : `${quantity} of ${metal}`);
  const knobs = [...metals].flatMap(([label, metal]): PlanKnob[] => [
    knob(of('conductivity', label), conductivityBand(metal)),
    knob(of('heat capacity', label), heatBand(metal)),
  ]);
  const isByHand = plan.passes.some(({ arcOnS }) => arcOnS === undefined);
  return isByHand ? [...knobs, knob('travel speed', [1 - HAND_TRAVEL, 1 + HAND_TRAVEL])] : knobs;
}

/** A plan as it would be with other values: `power`, `film`, `contact` and those of `nuisanceKnobs`. */
export function planWith(plan: PlatePlan, knobs: PlanKnobs): PlatePlan {
  const { power = 1, film = 1, contact = 1, 'travel speed': travel = 1 } = knobs;
  return {
    ...plan,
    part: plan.part.map((region) => {
      const label = labelOf(region.metal);
      const factor = (quantity: string) => knobs[quantity] ?? knobs[`${quantity} of ${label}`] ?? 1;
      const [conductivity, heat] = [factor('conductivity'), factor('heat capacity')];
      return conductivity === 1 && heat === 1
        ? region
        : { ...region, metal: scaledMetal(region.metal, conductivity, heat) };
    }),
    surface: { ...plan.surface, convectionWPerM2K: film * plan.surface.convectionWPerM2K },
    ...(plan.contacts
      ? {
          contacts: plan.contacts.map((body) => ({
            ...body,
            conductanceWPerM2K: contact * body.conductanceWPerM2K,
          })),
        }
      : {}),
    passes: plan.passes.map((pass) => scaledPass(pass, power, travel)),
  };
}

function scaledPass(pass: PlatePass, power: number, travel: number): PlatePass {
  const { netPowerW, amps, travelMmPerMin, ...rest } = pass;
  const scaled = (value: NonNullable<PlatePass['amps']>) =>
    typeof value === 'number' ? power * value : { ...value, value: value.value.map((v) => power * v) };
  return {
    ...rest,
    // The efficiency is what is not known; on amps the factor has the same effect and no bound.
    ...(netPowerW === undefined ? {} : { netPowerW: scaled(netPowerW) }),
    ...(amps === undefined ? {} : { amps: scaled(amps) }),
    ...(pass.arcOnS === undefined ? { travelMmPerS: travel * travelMmPerS(pass) } : {}),
  };
}

function scaledMetal(metal: string | MetalProperties, conductivity: number, heat: number): MetalProperties {
  const known = metalOfRegion(metal);
  const scale = (property: PropertyValue, by: number): PropertyValue =>
    typeof property === 'number'
      ? by * property
      : { ...property, value: property.value.map((value) => by * value) };
  return {
    ...known,
    conductivityWPerMK: scale(known.conductivityWPerMK, conductivity),
    specificHeatJPerKgK: scale(known.specificHeatJPerKgK, heat),
  };
}

/** The metals of a plan by the name sentences use. */
function metalsOf({ part }: PlatePlan): Map<string, string | MetalProperties> {
  const solid = part.filter(({ thicknessMm }) => thicknessMm > 0);
  return new Map(solid.map(({ metal }) => [labelOf(metal), metal]));
}

const labelOf = (metal: string | MetalProperties): string =>
  typeof metal === 'string' ? metal : `${metal.densityKgPerM3} kg/m³ metal`;

function conductivityBand(metal: string | MetalProperties): [number, number] {
  if (typeof metal !== 'string') return [1 - OWN_CONDUCTIVITY, 1 + OWN_CONDUCTIVITY];
  const { value, low, high } = loadAlloy(metal).thermal.conductivityWPerMK;
  return low !== undefined && high !== undefined && low < high
    ? [low / value, high / value]
    : [1 - OWN_CONDUCTIVITY, 1 + OWN_CONDUCTIVITY];
}

function heatBand(metal: string | MetalProperties): [number, number] {
  if (typeof metal !== 'string') return [1 - OWN_HEAT, 1 + OWN_HEAT];
  const { value, low, high } = loadAlloy(metal).thermal.specificHeatJPerKgK;
  return low !== undefined && high !== undefined && low < high
    ? [low / value, high / value]
    : [1 - OWN_HEAT, 1 + OWN_HEAT];
}

const knob = (name: string, [low, high]: readonly [number, number]): PlanKnob => ({
  name,
  label: name,
  nominal: (low + high) / 2,
  low,
  high,
});
