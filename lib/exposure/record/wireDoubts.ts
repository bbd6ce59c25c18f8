import type { ThermalHistory } from '../../history';
import { type ToleranceClass, toleranceC, typeKDriftC } from '../../thermocouple';
import type { Doubt } from '../exposure';
import { timeAbove } from '../timeAbove';

/**
 * What the wire leaves open: new wire reads within its tolerance, any error as likely as another (JCGM 100:2008,
 * 4.3.7); type K that was hot may read high besides, which only says that the metal was cooler.
 */
export function wireDoubts(history: ThermalHistory, wire: ToleranceClass): Doubt[] {
  const { tempC } = history;
  const doubts: Doubt[] = [
    {
      kind: 'wire',
      of: 'the wire',
      spread: { shape: 'even', low: -1, high: 1 },
      shiftK: tempC.map((temp) => wireToleranceC(wire, temp)),
    },
  ];
  const hotS = wire.type === 'K' ? timeAbove(history, 200) : 0;
  if (hotS === 0) return doubts;
  return [
    ...doubts,
    {
      kind: 'drift',
      of: 'type K wire that drifts in use',
      spread: { shape: 'even', low: 0, high: 1 },
      shiftK: tempC.map((temp) => -typeKDriftC(temp, hotS)),
    },
  ];
}

/**
 * Tolerance of new wire at a temperature, °C. Where its class defines none: twice the limits of class 2 for
 * base-metal wire, a wide guess.
 */
export function wireToleranceC({ standard, class: c, type }: ToleranceClass, tempC: number): number {
  return toleranceC(standard, c, type, tempC) ?? 2 * Math.max(2.5, 0.0075 * Math.abs(tempC));
}
