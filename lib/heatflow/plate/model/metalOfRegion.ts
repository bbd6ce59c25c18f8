import { loadAlloy } from '../../../alloy';
import { requireNumber, TemperbookError } from '../../../quantity';
import type { MetalProperties, PropertyValue } from '../plan/platePlan';

/**
 * Thermal properties of a region's metal: those of the alloy card (tables where it has them, nominal values
 * else), or the ones written into the plan, checked for being physical.
 * @throws TemperbookError for an unknown alloy or an impossible property.
 */
export function metalOfRegion(metal: string | MetalProperties): MetalProperties {
  if (typeof metal !== 'string') return checked(metal);
  const { thermal } = loadAlloy(metal);
  return checked({
    densityKgPerM3: thermal.densityKgPerM3.value,
    conductivityWPerMK: thermal.conductivityTable ?? thermal.conductivityWPerMK.value,
    specificHeatJPerKgK: thermal.specificHeatTable ?? thermal.specificHeatJPerKgK.value,
    latentHeatJPerKg: thermal.latentHeatJPerKg.value,
    solidusC: thermal.solidusC.value,
    liquidusC: thermal.liquidusC.value,
  });
}

function checked(metal: MetalProperties): MetalProperties {
  requireNumber(metal.densityKgPerM3, 'densityKgPerM3', { low: 500, high: 25_000 });
  checkProperty(metal.conductivityWPerMK, 'conductivityWPerMK', { low: 0.1, high: 2000 });
  checkProperty(metal.specificHeatJPerKgK, 'specificHeatJPerKgK', { low: 50, high: 10_000 });
  const { latentHeatJPerKg: latent = 0, solidusC, liquidusC } = metal;
  requireNumber(latent, 'latentHeatJPerKg', { low: 0, high: 1e6 });
  if (solidusC !== undefined) requireNumber(solidusC, 'solidusC', { low: -50, high: 3000 });
  if (liquidusC !== undefined) requireNumber(liquidusC, 'liquidusC', { low: -50, high: 3000 });
  const isOrdered = solidusC !== undefined && liquidusC !== undefined && liquidusC - solidusC >= 1;
  if (latent > 0 && !isOrdered)
    throw new TemperbookError('Latent heat needs a melting range to be spread over', {
      found: `solidus ${solidusC} °C, liquidus ${liquidusC} °C`,
      expected: 'a liquidus at least 1 °C above the solidus',
    });
  return metal;
}

function checkProperty(property: PropertyValue, name: string, range: { low: number; high: number }): void {
  if (typeof property === 'number') {
    requireNumber(property, name, range);
    return;
  }
  const { tempC, value } = property;
  if (tempC.length === 0 || tempC.length !== value.length)
    throw new TemperbookError(`The table of ${name} needs as many values as temperatures, and at least one`, {
      found: `${tempC.length} temperatures and ${value.length} values`,
    });
  for (const [i, at] of tempC.entries()) {
    requireNumber(at, `temperature ${i + 1} of ${name}`, { low: i ? tempC[i - 1]! + 1e-6 : -273.15 });
    requireNumber(value[i], `${name} at ${at} °C`, range);
  }
}
