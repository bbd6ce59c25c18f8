import { readLog, type ThermalLog } from '../../lib/log';

/** A corner of a temperature programme: at this hour the furnace or part is at this temperature. */
export type Corner = readonly [hour: number, tempC: number];

/** A trace by straight lines between corners, °C at a time in h. */
export function programme(corners: readonly Corner[]): (hour: number) => number {
  return (hour) => {
    const next = corners.findIndex(([h]) => h > hour);
    if (next === 0) return corners[0]![1];
    if (next < 0) return corners[corners.length - 1]![1];
    const [h0, c0] = corners[next - 1]!;
    const [h1, c1] = corners[next]!;
    return c0 + ((hour - h0) / (h1 - h0)) * (c1 - c0);
  };
}

const S = 1 / 3600;
/** An invented T6 of A356: 12.5 h solution, quench within 6 s, a day's wait, 4 h at 154 °C. */
export const SOUND: readonly Corner[] = [
  [0, 22],
  [3, 536],
  [15.5, 538],
  [15.5 + 6 * S, 534],
  [15.5 + 14 * S, 90],
  [15.6, 75],
  [17, 24],
  [40, 24],
  [41, 154],
  [45, 154],
  [47, 25],
];

/** Times at which something happens need dense samples round them. */
export interface Invention {
  readonly channels: Readonly<Record<string, (hour: number) => number>>;
  readonly fromH?: number;
  readonly toH: number;
  readonly everyS?: number;
  /** Sampled every second from and to, h. */
  readonly dense?: readonly (readonly [number, number])[];
  readonly unit?: string;
}

/** An invented chart, through the kit's own reader. */
export function invented({
  channels,
  fromH = 0,
  toH,
  everyS = 60,
  dense = [],
  unit = '°C',
}: Invention): ThermalLog {
  const times = new Set<number>();
  for (let t = fromH * 3600; t <= toH * 3600 + 1e-6; t += everyS) times.add(Math.round(t));
  for (const [a, b] of dense)
    for (let t = Math.round(Math.max(a, fromH) * 3600); t <= Math.min(b, toH) * 3600; t++) times.add(t);
  const sorted = [...times].sort((a, b) => a - b);
  const names = Object.keys(channels);
  const rows = sorted.map((t) =>
    [t - sorted[0]!, ...names.map((name) => channels[name]!(t / 3600).toFixed(2))].join(','),
  );
  const text = [`Time (s),${names.map((name) => `${name} (${unit})`).join(',')}`, ...rows].join('\n');
  return readLog(new TextEncoder().encode(`${text}\n`), {
    name: 'invented chart',
    limits: { gapS: 4 * everyS },
  });
}

/** Quench water, warmed up before the load comes. */
export const water = (h: number): number => (h < 12 ? 30 : 75 + Math.sin(1e4 * h));

/** The furnace's air: with the load, then open and cooling by itself until the age. */
export const furnaceOf =
  (load: (hour: number) => number) =>
  (h: number): number =>
    h <= 15.5 || h >= 40 ? load(h) + 1 : Math.max(25, 400 - 40 * (h - 15.5));

/** The sound chart, with sensors as given. */
export const soundLog = (
  channels: Invention['channels'] = {
    'Load 1': programme(SOUND),
    'Load 2': (h) => programme(SOUND)(h) - 1,
    'Furnace air': furnaceOf(programme(SOUND)),
    'Quench water': water,
  },
  more: Partial<Invention> = {},
): ThermalLog => invented({ channels, toH: 47, dense: [[15.4, 15.6]], ...more });
