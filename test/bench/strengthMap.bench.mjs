// The strength map of a wall chart, 60 × 60 points: soaks and weld-like cycles by the softening model, soaks by the
// precipitate model with both its sets. One run each; the goal is under 10 s.
import { precipitateModel, strengthMap } from '../../dist/kinetics/index.js';

function measure(name, options) {
  const startMs = performance.now();
  strengthMap({ alloy: '6061', temper: 'T6', ...options });
  const seconds = (performance.now() - startMs) / 1000;
  process.stdout.write(`${name.padEnd(46)} ${seconds.toFixed(2).padStart(7)} s\n`);
}

measure('soaks, softening model', {});
measure('weld-like cycles, softening model', { kind: 'weld-like' });
// Up to 490 °C: at 500 °C the last particles of 6061 dissolve and grow in turn, in many small steps.
for (const parameters of ['published', 'calibrated'])
  measure(`soaks to 490 °C, precipitate model, ${parameters}`, {
    model: precipitateModel('6061', { parameters }),
    tempC: [150, 490],
  });
