// Invents the logs of data/demo/welds: feet of a folding radio mast, welded on two benches through a spring. Nothing
// here was measured or solved: each pass is a short rise at the probe and a slow one of the whole part.
//   node data/demo/make-weld-logs.mjs                    writes the 24 logs of the demo
//   node data/demo/make-weld-logs.mjs 1000 my-welds      as many as you say, anywhere
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { randomNumbers } from './invent.mjs';

const [count = '24', folder = path.join(import.meta.dirname, 'welds')] = process.argv.slice(2);
const AMBIENT = 19; // °C
const PASS_RISE = { block: 165, tube: 120 }; // K at the probe while the arc goes by
const PART_RISE = { block: 52, tube: 44 }; // K that one pass leaves in the whole part
const COOLING_S = 420;

/** Bench 2 is in a hurry: it waits half as long between passes. */
const BENCHES = [
  { name: 'bench-1', waitS: 300, amps: 1 },
  { name: 'bench-2', waitS: 150, amps: 1.06 },
];

/** Rise above the air at one probe, K. */
function rise(sinceS, passK, partK) {
  if (sinceS <= 0) return 0;
  const short = passK * (sinceS / 14) * Math.exp(1 - sinceS / 14);
  return short + partK * (1 - Math.exp(-sinceS / 30)) * Math.exp(-sinceS / COOLING_S);
}

function weldLog(number) {
  const chance = randomNumbers(4711 + number);
  const bench = BENCHES[number % 2];
  const passes = 2 + Math.floor(3 * chance());
  const heat = bench.amps * (0.9 + 0.25 * chance());
  const waitS = bench.waitS * (0.7 + 0.6 * chance());
  const starts = Array.from({ length: passes }, (_, k) => 30 + k * waitS);
  const endS = Math.ceil(starts.at(-1) + 1500);
  const day = new Date(Date.UTC(2026, 2, 2 + Math.floor((number * 90) / Number(count))))
    .toISOString()
    .slice(0, 10);
  const part = `MF-${101 + number}`;
  const lines = [
    `# Invented demo data - radio mast foot ${part}, hinge block welded to tube, ${bench.name}`,
    '# Logger: 2 x type K, peened into 1.6 mm holes',
    'Time (s),Block 12 mm (°C),Tube 22 mm (°C)',
  ];
  for (let t = 0; t <= endS; t += 2) {
    const at = (passK, partK) => {
      const sum = starts.reduce((all, start) => all + rise(t - start, heat * passK, heat * partK), AMBIENT);
      return (sum + 0.6 * (chance() - 0.5)).toFixed(1);
    };
    lines.push([t, at(PASS_RISE.block, PART_RISE.block), at(PASS_RISE.tube, PART_RISE.tube)].join(','));
  }
  return { name: `${day}-${bench.name}-${part}.csv`, text: `${lines.join('\r\n')}\r\n` };
}

mkdirSync(folder, { recursive: true });
for (let number = 0; number < Number(count); number++) {
  const { name, text } = weldLog(number);
  writeFileSync(path.join(folder, name), text);
}
