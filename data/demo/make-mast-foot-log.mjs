// Invents the demo log mast-foot-weld.csv: the foot of a folding radio mast, a cast hinge block TIG-welded
// to a tube. Nothing here was measured. Run: node data/demo/make-mast-foot-log.mjs
//
// The metal is a plan view cut into 2.5 mm squares (block 25 mm thick, tube wall 3 mm laid flat), heated by a
// moving arc and cooled by air; the probes then get what real probes get: noise, arc-start spikes, a probe
// that lets go. It shares no code with the kit, so reading it back is a fair trial.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { normalNumbers, randomNumbers, timeOfDay } from './invent.mjs';

const CELL = 2.5; // mm
const NX = 40; // 100 mm along the weld
const NY = 88; // 80 mm of block, then 140 mm of tube wall
const WELD_Y = 80; // mm
const AMBIENT = 21; // °C
const DT = 0.02; // s
const HZ = 2;
const END_S = 47 * 60;

const block = { thickness: 25, conductivity: 0.155, heat: 2680e-9 * 960 }; // W/mmK, J/mm³K
const tube = { thickness: 3, conductivity: 0.175, heat: 2700e-9 * 930 };

// amps × volts × efficiency, travel along x at 2.4 mm/s, arc-on second
const passes = [
  { name: 'root', startS: 150, netW: 165 * 15.5 * 0.6, lengthMm: 100 },
  { name: 'fill', startS: 640, netW: 175 * 15.5 * 0.6, lengthMm: 100 },
  { name: 'cap', startS: 1130, netW: 175 * 15.5 * 0.6, lengthMm: 100 },
  { name: 'repair', startS: 1420, netW: 180 * 15.5 * 0.6, lengthMm: 60 },
];
const TRAVEL = 2.4; // mm/s
const probes = [
  { name: 'Block toe 12 mm', x: 55, y: WELD_Y - 12 },
  { name: 'Block 28 mm', x: 50, y: WELD_Y - 28 },
  { name: 'Hinge lug', x: 50, y: 12 },
  { name: 'Tube 25 mm', x: 50, y: WELD_Y + 25 },
];

function invent() {
  const n = NX * NY;
  const part = Array.from({ length: NY }, (_, j) => ((j + 0.5) * CELL < WELD_Y ? block : tube));
  let temp = new Float64Array(n).fill(AMBIENT);
  let next = new Float64Array(n);
  const readings = probes.map(() => []);
  const steps = Math.round(END_S / DT);
  const perSample = Math.round(1 / HZ / DT);
  // Face conductances, W/K: along y in series through unequal thicknesses.
  const along = part.map((p) => p.conductivity * p.thickness);
  const across = part
    .slice(1)
    .map((p, j) => 2 / (1 / (part[j].conductivity * part[j].thickness) + 1 / (p.conductivity * p.thickness)));
  for (let step = 0; step <= steps; step++) {
    if (step % perSample === 0)
      for (const [k, p] of probes.entries())
        readings[k].push(temp[Math.floor(p.y / CELL) * NX + Math.floor(p.x / CELL)]);
    const t = step * DT;
    const arc = passes.find((p) => t >= p.startS && t < p.startS + p.lengthMm / TRAVEL);
    for (let j = 0; j < NY; j++) {
      const p = part[j];
      const capacity = p.heat * p.thickness * CELL * CELL;
      for (let i = 0; i < NX; i++) {
        const c = j * NX + i;
        const here = temp[c];
        let gain = 0;
        if (i > 0) gain += along[j] * (temp[c - 1] - here);
        if (i < NX - 1) gain += along[j] * (temp[c + 1] - here);
        if (j > 0) gain += across[j - 1] * (temp[c - NX] - here);
        if (j < NY - 1) gain += across[j] * (temp[c + NX] - here);
        // Both faces to air: convection and radiation together, and the bench clamp at the far lug.
        gain -= 2 * (11e-6 + 0.04e-6 * (here - AMBIENT)) * CELL * CELL * (here - AMBIENT);
        if (j < 8) gain -= 150e-6 * CELL * CELL * (here - AMBIENT);
        next[c] = here + (DT * gain) / capacity;
      }
    }
    if (arc) heat(next, part, arc, (t - arc.startS) * TRAVEL + (arc.name === 'repair' ? 30 : 0));
    [temp, next] = [next, temp];
  }
  return readings;
}

/** Spreads one step of arc heat over a Gaussian of 5 mm radius round the arc. */
function heat(temp, part, arc, x) {
  let sum = 0;
  const cells = [];
  for (let j = 0; j < NY; j++)
    for (let i = 0; i < NX; i++) {
      const r2 = ((i + 0.5) * CELL - x) ** 2 + ((j + 0.5) * CELL - WELD_Y) ** 2;
      if (r2 > 225) continue;
      const w = Math.exp(-r2 / 25);
      cells.push([j, j * NX + i, w]);
      sum += w;
    }
  for (const [j, c, w] of cells)
    temp[c] += (arc.netW * DT * w) / sum / (part[j].heat * part[j].thickness * CELL * CELL);
}

function log(readings) {
  const noise = randomNumbers(20260514);
  const gauss = normalNumbers(noise);
  const lines = [
    '# Invented demo data - radio mast foot, hinge block HB-07 welded to tube',
    '# Logger: bench unit, 4 x type K, peened into 1.6 mm holes',
    '# Filler 4043 2.4 mm, AC TIG, air cool between passes',
    '# Started 2026-05-14',
    'Clock,TC1 block 12 mm (°F),TC2 block 28 mm (°F),TC3 hinge lug (°F),TC4 tube 25 mm (°F),Arc (A)',
  ];
  const started = 8 * 3600 + 42 * 60 + 7;
  const letGoS = 1142; // TC2 is knocked off just after the cap pass starts
  for (let i = 0; i < readings[0].length; i++) {
    const t = i / HZ;
    const arc = passes.find((p) => t >= p.startS && t < p.startS + p.lengthMm / TRAVEL);
    const starting = passes.some((p) => t === p.startS);
    const fields = readings.map((channel, k) => {
      let c = channel[i] + 0.25 * gauss();
      if (starting && k !== 2) c += (k === 1 ? -1 : 1) * (90 + 130 * noise());
      if (k === 1 && t >= letGoS) {
        if (t >= letGoS + 6 && t < letGoS + 120 && noise() < 0.6) return 'OPEN';
        if (t >= letGoS + 120) return 'OPEN';
        c = 20 + 640 * noise();
      }
      return (c * 1.8 + 32).toFixed(1);
    });
    lines.push([timeOfDay(started + t), ...fields, arc ? Math.round(arc.netW / 0.6 / 15.5) : 0].join(','));
  }
  return `${lines.join('\r\n')}\r\n`;
}

const readings = invent();
writeFileSync(path.join(import.meta.dirname, 'mast-foot-weld.csv'), log(readings));
if (process.argv.includes('--peaks'))
  for (const [k, p] of probes.entries()) console.error(p.name, Math.max(...readings[k]).toFixed(0), '°C');
