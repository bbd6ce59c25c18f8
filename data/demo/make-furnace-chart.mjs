// Invents the demo chart furnace-chart.csv: a basket of cast hinge blocks for the feet of folding radio masts,
// A356.0, sent out for T6. Nothing here was measured. Run: node data/demo/make-furnace-chart.mjs
//
// Air follows a programme, each load sensor follows the air with a lag of its own, the water takes the heat of the
// load. The solution treatment and the quench are as they should be. The ageing oven is switched off by the clock: the
// block at the bottom of the basket comes up late and gets an hour less than the schedule asks for.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { normalNumbers, randomNumbers } from './invent.mjs';

const MIN = 60;
const H = 3600;
const QUENCH_S = 16.5 * H; // the door opens
const AGE_S = 41 * H; // the ageing oven starts
const AGE_OFF_S = 45.2 * H;
const END_S = 48 * H;
const AMBIENT = 21;

const loads = [
  { name: 'Load 1 top', lagS: 8 * MIN, quenchS: 2.4, underS: QUENCH_S + 6 },
  { name: 'Load 2 middle', lagS: 14 * MIN, quenchS: 3.1, underS: QUENCH_S + 7 },
  { name: 'Load 3 middle', lagS: 16 * MIN, quenchS: 3.4, underS: QUENCH_S + 7 },
  { name: 'Load 4 bottom', lagS: 41 * MIN, quenchS: 4.6, underS: QUENCH_S + 8 },
];

const noise = randomNumbers(20260402);
const gauss = normalNumbers(noise);

/** Air of whichever furnace the load is in, °C: ramp, control, switched off. */
function airAt(t) {
  if (t < QUENCH_S) return Math.min(539, AMBIENT + (518 * t) / (2 * H)) + 0.8 * Math.sin(t / 400);
  if (t < QUENCH_S + 6) return 539 - 12 * (t - QUENCH_S); // the door
  if (t < AGE_S) return AMBIENT + 447 * Math.exp(-(t - QUENCH_S) / (3 * H));
  if (t < AGE_OFF_S)
    return Math.min(154, AMBIENT + (133 * (t - AGE_S)) / (0.6 * H)) + 0.6 * Math.sin(t / 300);
  return AMBIENT + 133 * Math.exp(-(t - AGE_OFF_S) / (0.5 * H));
}

const waterAt = (t) =>
  t < 12 * H
    ? 24
    : t < QUENCH_S + 7
      ? Math.min(72, 24 + (48 * (t - 12 * H)) / (2 * H))
      : t < QUENCH_S + 40
        ? Math.min(79, 72 + 0.3 * (t - QUENCH_S - 7))
        : 24 + 55 * Math.exp(-(t - QUENCH_S) / (5 * H));

const temps = loads.map(() => AMBIENT);
const rows = [];
for (let t = 0; t <= END_S; t++) {
  loads.forEach(({ lagS, quenchS, underS }, k) => {
    const wet = t >= underS && t < underS + 20 * MIN;
    const dry = t >= underS + 20 * MIN && t < AGE_S; // on the bench
    const target = wet ? waterAt(t) : dry ? AMBIENT : airAt(t);
    const lag = wet ? quenchS : t >= QUENCH_S && t < underS ? 260 : lagS;
    temps[k] += (target - temps[k]) / lag;
  });
  // Once a minute, and every second while the door is open.
  if (t % 60 === 0 || (t >= QUENCH_S - 60 && t <= QUENCH_S + 120))
    rows.push([
      t,
      ...temps.map((c) => (c + 0.15 * gauss()).toFixed(1)),
      (airAt(t) + 0.3 * gauss()).toFixed(1),
      (waterAt(t) + 0.2 * gauss()).toFixed(1),
    ]);
}

const clock = (s) => {
  const stamp = new Date(Date.UTC(2026, 3, 2, 5, 40, 0) + s * 1000).toISOString();
  return `${stamp.slice(0, 10)} ${stamp.slice(11, 19)}`;
};
const lines = [
  '# Invented demo data - furnace chart, 24 hinge blocks HB-07 to HB-30, A356.0, T6 asked for',
  '# Type K sensors in drilled blocks; furnace 2 for solution, oven 1 for ageing',
  `Clock,${loads.map(({ name }) => `${name} (°C)`).join(',')},Furnace air (°C),Quench water (°C)`,
  ...rows.map(([t, ...fields]) => [clock(t), ...fields].join(',')),
];
writeFileSync(path.join(import.meta.dirname, 'furnace-chart.csv'), `${lines.join('\r\n')}\r\n`);
