import { loadAlloy, meltsFromC } from '../../alloy';
import { formatTemp, formatTempSpan, TemperbookError } from '../../quantity';
import { type ToleranceClass, toleranceC } from '../../thermocouple';
import type { Schedule } from '../schedule/schedule';
import { compare, type Requirement } from './requirement';
import type { ChartSensor } from './sensorRoles';

/** Wire of a furnace sensor unless told otherwise. */
export const USUAL_WIRE: ToleranceClass = { standard: 'ASTM E230', class: 'standard', type: 'K' };

/**
 * Nothing hotter than where the alloy begins to melt: the hottest reading of any sensor, with the tolerance of its
 * wire on both sides, because burnt eutectic cannot be heat treated away. Castings and welds are not homogenised:
 * the limit is that of the cast structure. Undefined for a schedule without a solution treatment.
 */
export function meltingRequirement(
  schedule: Schedule,
  sensors: readonly ChartSensor[],
  wire: ToleranceClass,
  hasLoads: boolean,
  recorded: boolean,
): Requirement | undefined {
  if (!schedule.solution) return undefined;
  const base = { name: 'No incipient melting', stage: 'solution' } as const;
  const melts = meltingStart(schedule);
  let hottest: { tempC: number; atS: number; sensor: string } | undefined;
  for (const { name, history } of sensors)
    for (let i = 0; i < history.timeS.length; i++)
      if (!hottest || history.tempC[i]! > hottest.tempC)
        hottest = { tempC: history.tempC[i]!, atS: history.timeS[i]!, sensor: name };
  if (melts === undefined || !hottest)
    return {
      ...base,
      verdict: 'cannot tell',
      found: hottest ? `hottest reading ${formatTemp(hottest.tempC, 1)}` : 'no reading',
      wanted: 'below where the alloy begins to melt',
      atS: hottest?.atS ?? null,
      missing: hottest ? '"meltsFromC" in the schedule, or a card of the alloy' : 'a reading',
    };
  const doubtC = toleranceC(wire.standard, wire.class, wire.type, hottest.tempC) ?? Number.POSITIVE_INFINITY;
  const word = compare({ low: hottest.tempC - doubtC, high: hottest.tempC + doubtC }, { high: melts });
  const verdict = word === 'met' && !(hasLoads && recorded) ? 'cannot tell' : word;
  return {
    ...base,
    verdict,
    found: `hottest reading ${formatTemp(hottest.tempC, 1)}${Number.isFinite(doubtC) ? ` ± ${formatTempSpan(doubtC, 1)}` : ''}, ${hottest.sensor}`,
    wanted: `below ${formatTemp(melts)}, where ${schedule.alloy} begins to melt`,
    atS: hottest.atS,
    sensor: hottest.sensor,
    ...(verdict !== 'cannot tell'
      ? {}
      : {
          missing:
            word === 'cannot tell'
              ? 'sensors of a closer tolerance, or a look at the metal under the microscope'
              : hasLoads
                ? 'all of the solution treatment on the chart'
                : 'a sensor in the load',
        }),
  };
}

function meltingStart({ alloy, meltsFromC: own }: Schedule): number | undefined {
  if (own !== undefined) return own;
  try {
    return meltsFromC(loadAlloy(alloy));
  } catch (error) {
    if (error instanceof TemperbookError) return undefined;
    throw error;
  }
}
