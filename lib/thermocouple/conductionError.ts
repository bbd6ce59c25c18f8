import { requireNumber } from '../quantity';

/** A wire or sheath that leaves a thick part into air; all positive. */
export interface Lead {
  readonly diameterMm: number;
  /** Along the lead: about 19 for the positive and 29.5 for the negative wire of type K. */
  readonly conductivityWPerMK: number;
  /** From the lead to air, by convection and radiation. */
  readonly lossWPerM2K: number;
  /** Of the part. */
  readonly bodyConductivityWPerMK: number;
  /** A lead that only touches: conductance of the touching area. Without it the lead is welded on. */
  readonly contact?: { readonly areaMm2: number; readonly conductanceWPerM2K: number };
}

/**
 * Fraction of (part − ambient) by which a junction reads low in steady state: G R/(1 + G R). G = √(h P k A) is
 * the heat a long lead draws as a fin, in W/K; R = 1/(4 k_s a) + 1/(h_c A_c) what spreading into the part and
 * the contact put in its way, in K/W; a is the radius of the lead or of the touching area. An order of
 * magnitude where contact is guessed. Source: Incropera and DeWitt (fin), Carslaw and Jaeger (disc source on a
 * half space), from memory.
 * @throws TemperbookError on a value that is not positive.
 * @example conductionErrorFraction({ diameterMm: 0.25, conductivityWPerMK: 19, lossWPerM2K: 20,
 *   bodyConductivityWPerMK: 167 }) // 0.00145
 */
export function conductionErrorFraction(lead: Lead): number {
  const positive = (value: number, name: string): number =>
    requireNumber(value, name, { low: Number.MIN_VALUE });
  const diameter = positive(lead.diameterMm, 'Diameter of the lead in mm') / 1000;
  const k = positive(lead.conductivityWPerMK, 'Conductivity of the lead in W/(m K)');
  const h = positive(lead.lossWPerM2K, 'Heat loss of the lead in W/(m² K)');
  const body = positive(lead.bodyConductivityWPerMK, 'Conductivity of the part in W/(m K)');
  const drawn = Math.sqrt(h * Math.PI * diameter * k * ((Math.PI * diameter ** 2) / 4));
  let resistance = 1 / (4 * body * (diameter / 2));
  if (lead.contact !== undefined) {
    const area = positive(lead.contact.areaMm2, 'Touching area in mm²') / 1e6;
    const conductance = positive(lead.contact.conductanceWPerM2K, 'Contact conductance in W/(m² K)');
    resistance = 1 / (4 * body * Math.sqrt(area / Math.PI)) + 1 / (conductance * area);
  }
  return (drawn * resistance) / (1 + drawn * resistance);
}
