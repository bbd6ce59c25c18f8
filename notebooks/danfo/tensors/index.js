// The tensor functions that danfojs-node 1.2.0 calls, and no others: frames of one or two dimensions, a number or
// a row or column beside them. In double precision, where TensorFlow.js would round to single. `overrides` of the
// workspace puts this in the place of @tensorflow/tfjs-node; test/project/frames.test.ts holds it against danfojs.

/** Numbers in rows: shape [] is a single number, [n] a list, [rows, columns] a table. */
class Tensor {
  constructor(values, shape, dtype = 'float32') {
    this.values = values;
    this.shape = shape;
    this.rank = shape.length;
    this.size = values.length;
    this.dtype = dtype;
  }
  arraySync() {
    if (this.rank === 0) return this.values[0];
    if (this.rank === 1) return [...this.values];
    const [rows, columns] = this.shape;
    return Array.from({ length: rows }, (_, i) => this.values.slice(i * columns, (i + 1) * columns));
  }
  clone() {
    return new Tensor([...this.values], [...this.shape], this.dtype);
  }
  transpose() {
    if (this.rank < 2) return this.clone();
    const [rows, columns] = this.shape;
    const turned = Array.from(
      { length: rows * columns },
      (_, k) => this.values[(k % rows) * columns + Math.floor(k / rows)],
    );
    return new Tensor(turned, [columns, rows], this.dtype);
  }
  sqrt() {
    return new Tensor(this.values.map(Math.sqrt), this.shape, this.dtype);
  }
  argMax() {
    return indexWhere(this, (value, best) => value > best);
  }
  argMin() {
    return indexWhere(this, (value, best) => value < best);
  }
}

function indexWhere({ values, rank }, isBetter) {
  if (rank !== 1) throw new Error('argMax and argMin are of a list only');
  const at = values.reduce((best, value, i) => (isBetter(value, values[best]) ? i : best), 0);
  return new Tensor([at], [], 'int32');
}

/** The shape two tensors have together: one of a single row, column or number is repeated along the other. */
function sharedShape(a, b) {
  const rank = Math.max(a.rank, b.rank);
  const padded = ({ shape }) => [...Array(rank - shape.length).fill(1), ...shape];
  const [left, right] = [padded(a), padded(b)];
  return left.map((length, k) => {
    if (length === right[k] || right[k] === 1) return length;
    if (length === 1) return right[k];
    throw new Error(`Operands could not be broadcast together with shapes ${a.shape} and ${b.shape}.`);
  });
}

function combine(a, other, combineTwo, dtype) {
  const b = other instanceof Tensor ? other : scalar(other);
  const shape = sharedShape(a, b);
  const columns = shape.at(-1) ?? 1;
  const valueAt = ({ values, shape: own }) => {
    const [rows, width] = [own.length === 2 ? own[0] : 1, own.at(-1) ?? 1];
    return (row, column) => values[(rows === 1 ? 0 : row) * width + (width === 1 ? 0 : column)];
  };
  const [left, right] = [valueAt(a), valueAt(b)];
  const values = Array.from({ length: shape.reduce((n, length) => n * length, 1) }, (_, k) => {
    const [row, column] = [Math.floor(k / columns), k % columns];
    return combineTwo(left(row, column), right(row, column));
  });
  return new Tensor(values, shape, dtype ?? a.dtype);
}

const PAIRS = {
  add: (x, y) => x + y,
  sub: (x, y) => x - y,
  mul: (x, y) => x * y,
  div: (x, y) => x / y,
  divNoNan: (x, y) => (y === 0 ? 0 : x / y),
  pow: (x, y) => x ** y,
  // The remainder takes the sign of the divisor.
  mod: (x, y) => (y === 0 ? Number.NaN : x - y * Math.floor(x / y)),
};
const QUESTIONS = {
  greater: (x, y) => x > y,
  less: (x, y) => x < y,
  greaterEqual: (x, y) => x >= y,
  lessEqual: (x, y) => x <= y,
  equal: (x, y) => x === y,
  notEqual: (x, y) => x !== y,
};
for (const [name, pair] of Object.entries(PAIRS))
  Tensor.prototype[name] = function (other) {
    return combine(this, other, pair);
  };
for (const [name, ask] of Object.entries(QUESTIONS))
  Tensor.prototype[name] = function (other) {
    return combine(this, other, (x, y) => Number(ask(x, y)), 'bool');
  };

const mean = (values) => values.reduce((sum, value) => sum + value, 0) / values.length;
const ALONG = {
  mean,
  max: (values) => values.reduce((best, value) => Math.max(best, value), Number.NEGATIVE_INFINITY),
  min: (values) => values.reduce((best, value) => Math.min(best, value), Number.POSITIVE_INFINITY),
  variance: (values) => {
    const middle = mean(values);
    return mean(values.map((value) => (value - middle) ** 2));
  },
};

/** One number of a list, or one of each column of a table. */
function along(tensor, axis, of) {
  if (axis !== 0) throw new Error(`Only axis 0 is known here, not ${axis}.`);
  if (tensor.rank === 1) return new Tensor([of(tensor.values)], []);
  const columns = tensor.transpose().arraySync();
  return new Tensor(columns.map(of), [columns.length]);
}
for (const name of ['mean', 'max', 'min'])
  Tensor.prototype[name] = function (axis) {
    return along(this, axis, ALONG[name]);
  };

const scalar = (value) => new Tensor([value], []);
const tensor1d = (values, dtype) => new Tensor([...values], [values.length], dtype);

function tensor2d(values, shape, dtype) {
  const flat = values.flat();
  const [rows, columns] = shape ?? [values.length, values[0]?.length ?? 0];
  if (flat.length !== rows * columns)
    throw new Error(
      `Based on the provided shape, [${rows},${columns}], the tensor should have ${rows * columns} values but has ${flat.length}`,
    );
  return new Tensor(flat, [rows, columns], dtype);
}

const moments = (tensor, axis) => ({
  mean: along(tensor, axis, ALONG.mean),
  variance: along(tensor, axis, ALONG.variance),
});

/** What `sample` draws from: a list shuffled by a seed, of which the first few are taken. */
const data = {
  array: (values) => ({
    shuffle: (_, seed) => data.array(shuffled(values, seed)),
    take: (count) => data.array(values.slice(0, count)),
    toArray: async () => [...values],
  }),
};

function shuffled(values, seed) {
  let state = [...String(seed)].reduce((hash, letter) => Math.imul(hash, 31) + letter.charCodeAt(0), 17) | 0;
  const share = () => {
    state = (state + 0x6d2b79f5) | 0;
    const mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const mixed = [...values];
  for (let k = mixed.length - 1; k > 0; k--) {
    const other = Math.floor(share() * (k + 1));
    [mixed[k], mixed[other]] = [mixed[other], mixed[k]];
  }
  return mixed;
}

module.exports = { Tensor, data, moments, scalar, tensor1d, tensor2d };
