// Invents the demo log mast-foot-two-probes.csv: the foot of a folding radio mast, a cast hinge block whose
// welding lip is TIG-welded to a tube, logged by one probe on the lip and one on the tube. Nothing here was
// measured. Run: node data/demo/make-two-probe-log.mjs (a minute; --peaks also prints what the metal reached)
//
// The metal is a plan view cut into 2 mm squares (block 25 mm thick, its lip 8 mm, tube wall 3 mm laid flat),
// heated by a moving arc, cooled by air and by the bench the block is clamped to. It shares no code with the
// kit, and its metal is not quite that of the alloy cards, so fitting the kit's solver to it is a fair trial.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { normalNumbers, randomNumbers, timeOfDay } from './invent.mjs';

const CELL = 2; // mm
const NX = 50; // 100 mm along the weld
const NY = 90; // 40 mm of block, 40 mm of lip, 100 mm of tube wall
const LIP_Y = 40; // mm
const WELD_Y = 80; // mm
const CLAMP_Y = 20; // mm
const AMBIENT = 19; // °C
const DT = 0.0125; // s
const HZ = 2;
const END_S = 33 * 60;

// What a fit should find: the arc's efficiency, the air, the clamp, and where probe 1 really sits.
const TRUTH = { efficiency: 0.56, stillAirWPerM2K: 9, clampWPerM2K: 420, lipProbeMm: 12.6 };

// W/mmK and J/mm³K, both rising straight with temperature; a few per cent off the alloy cards.
const cast = { conductivity: (c) => 0.147 + 2.5e-5 * c, heat: (c) => 2680e-9 * (880 + 0.42 * c) };
const wrought = { conductivity: (c) => 0.16 + 1.3e-4 * c, heat: (c) => 2700e-9 * (920 + 0.45 * c) };
const rows = Array.from({ length: NY }, (_, j) => {
  const y = (j + 0.5) * CELL;
  if (y < LIP_Y) return { ...cast, thickness: 25 };
  return y < WELD_Y ? { ...cast, thickness: 8 } : { ...wrought, thickness: 3 };
});

// Amps, volts, mm/s; along x from the first to the second mm.
const passes = [
  { name: 'root', startS: 120, amps: 155, volts: 14.5, travel: 2.6, fromX: 5, toX: 95 },
  { name: 'cap', startS: 480, amps: 165, volts: 14.8, travel: 2.6, fromX: 5, toX: 95 },
  { name: 'repair', startS: 900, amps: 160, volts: 14.6, travel: 2.4, fromX: 55, toX: 93 },
];
const probes = [
  { name: 'TC1 lip 14 mm', x: 50, y: WELD_Y - TRUTH.lipProbeMm },
  { name: 'TC2 tube 22 mm', x: 50, y: WELD_Y + 22 },
];

function invent() {
  const n = NX * NY;
  let temp = new Float64Array(n).fill(AMBIENT);
  let next = new Float64Array(n);
  const hottest = temp.slice();
  const readings = probes.map(() => []);
  const perSample = Math.round(1 / HZ / DT);
  // Half a cell's conductance, W/K; the face between two cells has both halves in series.
  const half = new Float64Array(n);
  const flow = (from, to) => (temp[to] - temp[from]) / (1 / half[from] + 1 / half[to]);
  for (let step = 0; step <= Math.round(END_S / DT); step++) {
    if (step % perSample === 0) for (const [k, p] of probes.entries()) readings[k].push(between(temp, p));
    const t = step * DT;
    for (let c = 0; c < n; c++) {
      const { conductivity, thickness } = rows[Math.floor(c / NX)];
      half[c] = 2 * conductivity(temp[c]) * thickness;
    }
    for (let j = 0; j < NY; j++) {
      for (let i = 0; i < NX; i++) {
        const c = j * NX + i;
        const here = temp[c];
        let gain = 0;
        if (i > 0) gain += flow(c, c - 1);
        if (i < NX - 1) gain += flow(c, c + 1);
        if (j > 0) gain += flow(c, c - NX);
        if (j < NY - 1) gain += flow(c, c + NX);
        // Both faces to the air, with a little radiation; where the block stands on the bench only one.
        const clamped = (j + 0.5) * CELL < CLAMP_Y;
        const film = TRUTH.stillAirWPerM2K * 1e-6 + 0.015e-6 * (here - AMBIENT);
        gain -= (clamped ? 1 : 2) * film * CELL * CELL * (here - AMBIENT);
        if (clamped) gain -= TRUTH.clampWPerM2K * 1e-6 * CELL * CELL * (here - AMBIENT);
        next[c] = here + (DT * gain) / capacity(c, here);
      }
    }
    const arc = passes.find((p) => t >= p.startS && t < endOf(p));
    if (arc) heat(next, arc, arc.fromX + (t - arc.startS) * arc.travel);
    [temp, next] = [next, temp];
    if (arc || step % 20 === 0) for (let c = 0; c < n; c++) hottest[c] = Math.max(hottest[c], temp[c]);
  }
  return { readings, hottest };
}

/** Heat one cell takes for a kelvin, J. */
function capacity(c, tempC) {
  const { heat, thickness } = rows[Math.floor(c / NX)];
  return heat(tempC) * thickness * CELL * CELL;
}

function endOf({ startS, fromX, toX, travel }) {
  return startS + (toX - fromX) / travel;
}

/** Temperature at a point, from the four cells round it. */
function between(temp, { x, y }) {
  const [i, j] = [Math.floor(x / CELL - 0.5), Math.floor(y / CELL - 0.5)];
  const [u, v] = [x / CELL - 0.5 - i, y / CELL - 0.5 - j];
  const row = (r) => (1 - u) * temp[r * NX + i] + u * temp[r * NX + i + 1];
  return (1 - v) * row(j) + v * row(j + 1);
}

/** Spreads one step of arc heat over a Gaussian round the arc, 95 % of it within 6 mm. */
function heat(temp, { amps, volts }, x) {
  const netW = amps * volts * TRUTH.efficiency;
  let sum = 0;
  const cells = [];
  for (let j = 0; j < NY; j++)
    for (let i = 0; i < NX; i++) {
      const r2 = ((i + 0.5) * CELL - x) ** 2 + ((j + 0.5) * CELL - WELD_Y) ** 2;
      if (r2 > 200) continue;
      const w = Math.exp((-3 * r2) / 36);
      cells.push([j * NX + i, w]);
      sum += w;
    }
  for (const [c, w] of cells) temp[c] += (netW * DT * w) / sum / capacity(c, temp[c]);
}

function log(readings) {
  const noise = randomNumbers(20260611);
  const gauss = normalNumbers(noise);
  const lines = [
    '# Invented demo data - radio mast foot, hinge block HB-09, lip welded to tube',
    '# Logger: bench unit, 2 x type K, peened into 1.6 mm holes',
    '# Filler 4043 2.4 mm, AC TIG, block clamped to the bench, air cool between passes',
    '# Started 2026-06-11',
    'Clock,TC1 lip 14 mm (°C),TC2 tube 22 mm (°C)',
  ];
  const started = 9 * 3600 + 14 * 60 + 30;
  for (let i = 0; i < readings[0].length; i++) {
    const t = i / HZ;
    const starting = passes.some((p) => t === p.startS);
    const fields = readings.map((channel) => {
      let c = AMBIENT + 0.99 * (channel[i] - AMBIENT) + 0.3 * gauss(); // the peened wires lead some heat away
      if (starting) c += 80 + 120 * noise(); // the arc's start strikes through
      return c.toFixed(1);
    });
    lines.push([timeOfDay(started + t), ...fields].join(','));
  }
  return `${lines.join('\r\n')}\r\n`;
}

const { readings, hottest } = invent();
writeFileSync(path.join(import.meta.dirname, 'mast-foot-two-probes.csv'), log(readings));
if (process.argv.includes('--peaks')) {
  for (const [k, p] of probes.entries()) console.error(p.name, Math.max(...readings[k]).toFixed(0), '°C');
  for (const mm of [-50, -40, -30, -24, -20, -16, -12, -8, 8, 12, 16, 20, 24, 30, 40, 50, 60])
    console.error(`${mm} mm`, between(hottest, { x: 50, y: WELD_Y + mm }).toFixed(0), '°C');
}
