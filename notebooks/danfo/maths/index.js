// The functions of mathjs that danfojs-node 1.2.0 calls, by simple-statistics, which the kit has anyway. `overrides`
// of the workspace puts this in the place of mathjs; test/project/frames.test.ts holds it against known answers.

const { mean, median, sampleVariance } = require('simple-statistics');

/** Of one value alone 0, as mathjs has it. */
const variance = (values) => (values.length === 1 ? 0 : sampleVariance(values));
const std = (values) => Math.sqrt(variance(values));

/** All values that occur most often, in the order they first do. */
function mode(values) {
  const counts = new Map();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  const most = Math.max(...counts.values());
  return [...counts].filter(([, count]) => count === most).map(([value]) => value);
}

module.exports = { mean, median, mode, std, variance };
