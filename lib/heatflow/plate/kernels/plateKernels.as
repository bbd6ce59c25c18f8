// The plate solver's loops over cells, in AssemblyScript (TypeScript's syntax, compiled to WebAssembly): the same
// loops in JavaScript take three times as long, because every array access is checked on its own.
// `node lib/heatflow/plate/kernels/compile.mjs` turns this file into plateKernelsWasm.ts.
//
// A field is the address of one 64-bit number per cell. Fields hold the layers of the part one after the other, each
// row by row, with guard cells before and after them (a row where there is one layer, a whole layer where there are
// more); `first` and `end` enclose the grid, `row` is the way to the cell above in the plan and `plane` the way to the
// cell in the next layer down, all in bytes. Loops that take two cells at once (f64x2) may run one cell into the guard
// cells behind, where zeros stay zeros. What differs with layers stands once, inlined with and without `isDeep`.

let first: usize = 0;
let end: usize = 0;
let row: usize = 0;
let plane: usize = 0;

export function setGrid(firstCell: usize, endCell: usize, columns: usize, cellsPerLayer: usize): void {
  first = firstCell << 3;
  end = endCell << 3;
  row = columns << 3;
  plane = cellsPerLayer << 3;
  layers = (end - first) / plane;
  rows = plane / row;
  bands = (rows + 3) >> 2;
  bandBytes = (columns + 6) * PACK;
}

// ---- The state of the part ----

// A metal's table holds five numbers per bin: °C at its start, K per bin, J/mm³K, k/k(20 °C) at its start, its change.
const BIN: usize = 40;

/** Whole bin of a position in a table; beyond its ends the first or the last. */
function binOf(position: f64, lastBin: f64): f64 {
  return position < 0 ? 0 : position > lastBin ? lastBin : Math.floor(position);
}

/** Temperature, capacity, relative conductivity and loss to air; `netW` begins with the loss. Returns its sum, W. */
export function fillCells(
  heat: usize, binsPerJoule: usize, tableAt: usize, lastBin: f64, volume: usize, airArea: usize,
  film: f64, glow: f64, ambientC: f64,
  tempC: usize, capacity: usize, relativeK: usize, netW: usize, airSlope: usize,
): f64 {
  const ambientSquare = (ambientC + 273.15) * (ambientC + 273.15);
  const fromAmbient = glow * ambientSquare * ambientSquare;
  let airW: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const position = load<f64>(heat + c) * load<f64>(binsPerJoule + c);
    const bin = binOf(position, lastBin);
    const part = position - bin;
    const at = <usize>load<u32>(tableAt + (c >> 1)) + <usize>bin * BIN;
    const temp = load<f64>(at) + load<f64>(at, 8) * part;
    store<f64>(tempC + c, temp);
    store<f64>(capacity + c, load<f64>(volume + c) * load<f64>(at, 16));
    store<f64>(relativeK + c, load<f64>(at, 24) + load<f64>(at, 32) * max<f64>(0, min<f64>(1, part)));
    const area = load<f64>(airArea + c);
    const kelvin = temp + 273.15;
    const cubed = glow * kelvin * kelvin * kelvin;
    const loss = area * (film * (temp - ambientC) + cubed * kelvin - fromAmbient);
    store<f64>(airSlope + c, area * (film + 4 * cubed));
    store<f64>(netW + c, -loss);
    airW += loss;
  }
  return airW;
}

/** Conduction. A face conducts as its two half cells in series at 20 °C, times their mean relative conductivity. */
@inline
function facesOf(
  tempC: usize, relativeK: usize, faceRight: usize, faceUp: usize, faceDeep: usize,
  right: usize, up: usize, deep: usize, netW: usize, isDeep: bool,
): void {
  let fromLeft: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const k = load<f64>(relativeK + c);
    const temp = load<f64>(tempC + c);
    const toRight = 0.5 * load<f64>(faceRight + c) * (k + load<f64>(relativeK + c, 8));
    const toUp = 0.5 * load<f64>(faceUp + c) * (k + load<f64>(relativeK + c + row));
    store<f64>(right + c, toRight);
    store<f64>(up + c, toUp);
    const flowRight = toRight * (temp - load<f64>(tempC + c, 8));
    const flowUp = toUp * (temp - load<f64>(tempC + c + row));
    const fromBelow = load<f64>(up + c - row) * (load<f64>(tempC + c - row) - temp);
    let gain = fromLeft + fromBelow - flowRight - flowUp;
    fromLeft = flowRight;
    if (isDeep) {
      const toDeep = 0.5 * load<f64>(faceDeep + c) * (k + load<f64>(relativeK + c + plane));
      store<f64>(deep + c, toDeep);
      gain -= toDeep * (temp - load<f64>(tempC + c + plane));
      gain += load<f64>(deep + c - plane) * (load<f64>(tempC + c - plane) - temp);
    }
    store<f64>(netW + c, load<f64>(netW + c) + gain);
  }
}

export function fillFaces(
  tempC: usize, relativeK: usize, faceRight: usize, faceUp: usize, right: usize, up: usize, netW: usize,
): void {
  facesOf(tempC, relativeK, faceRight, faceUp, 0, right, up, 0, netW, false);
}

/** The same for a part of several layers. */
export function fillFacesDeep(
  tempC: usize, relativeK: usize, faceRight: usize, faceUp: usize, faceDeep: usize,
  right: usize, up: usize, deep: usize, netW: usize,
): void {
  facesOf(tempC, relativeK, faceRight, faceUp, faceDeep, right, up, deep, netW, true);
}

// ---- Joins: pairs of cells that touch without being neighbours in the grid ----

// A join holds the offsets of its two cells (u32), its conductance at 20 °C and its conductance now, W/K.
const JOIN: usize = 24;

/** Conductances of the joins, and what flows through them. */
export function fillJoins(joins: usize, count: usize, tempC: usize, relativeK: usize, netW: usize): void {
  for (let i: usize = 0; i < count; i++) {
    const at = joins + i * JOIN;
    const a = <usize>load<u32>(at);
    const b = <usize>load<u32>(at, 4);
    const conductance = 0.5 * load<f64>(at, 8) * (load<f64>(relativeK + a) + load<f64>(relativeK + b));
    store<f64>(at, conductance, 16);
    const flow = conductance * (load<f64>(tempC + a) - load<f64>(tempC + b));
    store<f64>(netW + a, load<f64>(netW + a) - flow);
    store<f64>(netW + b, load<f64>(netW + b) + flow);
  }
}

/** Adds the conductances of the joins to the diagonal. */
export function stiffenJoins(joins: usize, count: usize, own: usize): void {
  for (let i: usize = 0; i < count; i++) {
    const at = joins + i * JOIN;
    const a = own + <usize>load<u32>(at);
    const b = own + <usize>load<u32>(at, 4);
    store<f64>(a, load<f64>(a) + load<f64>(at, 16));
    store<f64>(b, load<f64>(b) + load<f64>(at, 16));
  }
}

/** Completes image = matrix × p with the joins. Returns what they add to p·image. */
export function multiplyJoins(joins: usize, count: usize, p: usize, image: usize): f64 {
  let product: f64 = 0;
  for (let i: usize = 0; i < count; i++) {
    const at = joins + i * JOIN;
    const a = <usize>load<u32>(at);
    const b = <usize>load<u32>(at, 4);
    const conductance = load<f64>(at, 16);
    const pa = load<f64>(p + a);
    const pb = load<f64>(p + b);
    store<f64>(image + a, load<f64>(image + a) - conductance * pb);
    store<f64>(image + b, load<f64>(image + b) - conductance * pa);
    product -= 2 * conductance * pa * pb;
  }
  return product;
}

// ---- One implicit stage ----

@inline
function lineariseIn(
  base: usize, heat: usize, perS: f64, capacity: usize, airSlope: usize, netW: usize, right: usize, up: usize,
  deep: usize, own: usize, residual: usize, isDeep: bool,
): void {
  let left: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const toRight = load<f64>(right + c);
    let faces = left + toRight + load<f64>(up + c) + load<f64>(up + c - row);
    if (isDeep) faces += load<f64>(deep + c) + load<f64>(deep + c - plane);
    store<f64>(own + c, perS * load<f64>(capacity + c) + load<f64>(airSlope + c) + faces);
    store<f64>(residual + c, perS * (load<f64>(base + c) - load<f64>(heat + c)) + load<f64>(netW + c));
    left = toRight;
  }
}

/** Diagonal and residual of the linearised stage, W/K and W. */
export function linearise(
  base: usize, heat: usize, perS: f64, capacity: usize, airSlope: usize, netW: usize, right: usize, up: usize,
  own: usize, residual: usize,
): void {
  lineariseIn(base, heat, perS, capacity, airSlope, netW, right, up, 0, own, residual, false);
}

/** The same for a part of several layers. */
export function lineariseDeep(
  base: usize, heat: usize, perS: f64, capacity: usize, airSlope: usize, netW: usize, right: usize, up: usize,
  deep: usize, own: usize, residual: usize,
): void {
  lineariseIn(base, heat, perS, capacity, airSlope, netW, right, up, deep, own, residual, true);
}

/**
 * Applies temperature changes and what the linear solver left over to the heat, and reads its temperatures. Returns
 * by how much they miss the expected ones at most, K.
 */
export function applyChange(
  change: usize, residual: usize, shareS: f64, capacity: usize, beforeC: usize,
  binsPerJoule: usize, tableAt: usize, lastBin: f64, heat: usize, tempC: usize,
): f64 {
  let furthest: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const x = load<f64>(change + c);
    const joule = load<f64>(heat + c) + load<f64>(capacity + c) * x + shareS * load<f64>(residual + c);
    store<f64>(heat + c, joule);
    const position = joule * load<f64>(binsPerJoule + c);
    const bin = binOf(position, lastBin);
    const at = <usize>load<u32>(tableAt + (c >> 1)) + <usize>bin * BIN;
    const temp = load<f64>(at) + load<f64>(at, 8) * (position - bin);
    store<f64>(tempC + c, temp);
    furthest = max<f64>(furthest, abs<f64>(temp - load<f64>(beforeC + c) - x));
  }
  return furthest;
}

// ---- Linear solver: own·x − Σ conductance · x of the neighbours = r ----

// The modified incomplete Cholesky factor goes from cell to cell, each needing the one before it. So that four can be done at
// once, it is kept apart, in single precision, in bands of four rows: record i of a band holds the cells of column i of its
// first row, i − 1 of its second, i − 2 of its third and i − 3 of its fourth. What one of them needs of its row and of
// the row before stands in record i − 1, and in the band before in record i + 3. Lanes beyond the grid are 0 and stay 0.
// A record: √pivot; the conductances to the right, up and to the next layer, each times both cells' √pivot; the solution.
const PACK: usize = 80;
const BESIDE: usize = 16;
const ABOVE: usize = 32;
const UNDER: usize = 48;
const VALUE: usize = 64;

let layers: usize = 0;
let rows: usize = 0;
let bands: usize = 0;
let bandBytes: usize = 0;

/** Bytes the packed factor takes: its bands, and an empty one before and after them. */
export function packedBytes(): usize {
  return (layers * bands + 2) * bandBytes;
}

/** Square roots of the pivots. */
@inline
function pivotsIn(
  own: usize, right: usize, up: usize, deep: usize, relaxation: f64, root: usize, isDeep: bool,
): void {
  let leftPivot: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const left = load<f64>(right + c - 8);
    const below = load<f64>(up + c - row);
    const belowRoot = load<f64>(root + c - row);
    let besideLeft = load<f64>(up + c - 8);
    let besideBelow = load<f64>(right + c - row);
    let fill: f64 = 0;
    if (isDeep) {
      besideLeft += load<f64>(deep + c - 8);
      besideBelow += load<f64>(deep + c - row);
      const over = load<f64>(deep + c - plane);
      const overRoot = load<f64>(root + c - plane);
      const besideOver = load<f64>(right + c - plane) + load<f64>(up + c - plane);
      fill = over * overRoot * overRoot * (over + relaxation * besideOver);
    }
    fill += below * belowRoot * belowRoot * (below + relaxation * besideBelow);
    leftPivot = 1 / (load<f64>(own + c) - fill - left * (left + relaxation * besideLeft) * leftPivot);
    store<f64>(root + c, Math.sqrt(leftPivot));
  }
}

@inline
function packIn(right: usize, up: usize, deep: usize, root: usize, packed: usize, isDeep: bool): void {
  let band = packed;
  let c = first;
  for (let line: usize = 0; line < layers * rows; line++) {
    const lane = (line % rows) & 3;
    if (lane === 0) band += bandBytes;
    let at = band + lane * (PACK + 4);
    for (const stop = c + row; c < stop; c += 8, at += PACK) {
      const own = load<f64>(root + c);
      store<f32>(at, <f32>own);
      store<f32>(at, <f32>(own * load<f64>(right + c) * load<f64>(root + c, 8)), BESIDE);
      store<f32>(at, <f32>(own * load<f64>(up + c) * load<f64>(root + c + row)), ABOVE);
      if (isDeep) store<f32>(at, <f32>(own * load<f64>(deep + c) * load<f64>(root + c + plane)), UNDER);
    }
  }
}

/** The packed factor. `relaxation` is the share of neglected fill given back; `root` is work space. */
export function factor(
  own: usize, right: usize, up: usize, relaxation: f64, root: usize, packed: usize,
): void {
  pivotsIn(own, right, up, 0, relaxation, root, false);
  packIn(right, up, 0, root, packed, false);
}

/** The same for a part of several layers. */
export function factorDeep(
  own: usize, right: usize, up: usize, deep: usize, relaxation: f64, root: usize, packed: usize,
): void {
  pivotsIn(own, right, up, deep, relaxation, root, true);
  packIn(right, up, deep, root, packed, true);
}

@inline
function forwardBand(at: usize, over: usize, r: usize, lanes: usize, isDeep: bool): void {
  let before = at - bandBytes + 3 * PACK;
  let second = lanes > 1 ? r + row - 8 : r;
  let third = lanes > 2 ? r + 2 * row - 16 : r;
  let fourth = lanes > 3 ? r + 3 * row - 24 : r;
  let beside = f32x4.splat(0);
  let above = f32x4.splat(0);
  for (const stop = r + row + 24; r < stop; r += 8) {
    const low = f32x4.demote_f64x2_zero(v128.load64_lane(second, v128.load64_zero(r), 1));
    const high = f32x4.demote_f64x2_zero(v128.load64_lane(fourth, v128.load64_zero(third), 1));
    let value = f32x4.mul(v128.load(at), v128.shuffle<f32>(low, high, 0, 1, 4, 5));
    if (isDeep) value = f32x4.add(value, f32x4.mul(v128.load(over, UNDER), v128.load(over, VALUE)));
    const below = f32x4.mul(v128.load(before, ABOVE), v128.load(before, VALUE));
    value = f32x4.add(value, f32x4.add(beside, v128.shuffle<f32>(above, below, 7, 0, 1, 2)));
    v128.store(at, value, VALUE);
    beside = f32x4.mul(v128.load(at, BESIDE), value);
    above = f32x4.mul(v128.load(at, ABOVE), value);
    at += PACK;
    before += PACK;
    if (isDeep) over += PACK;
    second += 8;
    third += 8;
    fourth += 8;
  }
}

@inline
function backwardBand(at: usize, under: usize, z: usize, lanes: usize, isDeep: bool): void {
  const start = z;
  const stop = z + row;
  z = stop + 16;
  at += bandBytes - 4 * PACK;
  if (isDeep) under += bandBytes - 4 * PACK;
  let next = at + bandBytes - 3 * PACK;
  let after = f32x4.splat(0);
  for (; z >= start; z -= 8) {
    let value = v128.load(at, VALUE);
    if (isDeep) value = f32x4.add(value, f32x4.mul(v128.load(at, UNDER), v128.load(under, VALUE)));
    const above = v128.shuffle<f32>(after, v128.load(next, VALUE), 1, 2, 3, 4);
    value = f32x4.add(
      value,
      f32x4.add(f32x4.mul(v128.load(at, BESIDE), after), f32x4.mul(v128.load(at, ABOVE), above)),
    );
    v128.store(at, value, VALUE);
    after = value;
    const scaled = f32x4.mul(v128.load(at), value);
    const low = f64x2.promote_low_f32x4(scaled);
    const high = f64x2.promote_low_f32x4(v128.shuffle<f32>(scaled, scaled, 2, 3, 2, 3));
    if (lanes === 4 && z >= start + 24 && z < stop) {
      v128.store64_lane(z, low, 0);
      v128.store64_lane(z + row - 8, low, 1);
      v128.store64_lane(z + 2 * row - 16, high, 0);
      v128.store64_lane(z + 3 * row - 24, high, 1);
    } else {
      if (z < stop) v128.store64_lane(z, low, 0);
      if (lanes > 1 && z >= start + 8 && z < stop + 8) v128.store64_lane(z + row - 8, low, 1);
      if (lanes > 2 && z >= start + 16 && z < stop + 16) v128.store64_lane(z + 2 * row - 16, high, 0);
      if (lanes > 3 && z >= start + 24) v128.store64_lane(z + 3 * row - 24, high, 1);
    }
    at -= PACK;
    next -= PACK;
    if (isDeep) under -= PACK;
  }
}

@inline
function preconditionIn(packed: usize, r: usize, z: usize, isDeep: bool): void {
  const layerBytes = bands * bandBytes;
  for (let layer: usize = 0; layer < layers; layer++)
    for (let band: usize = 0; band < bands; band++) {
      const at = packed + bandBytes + layer * layerBytes + band * bandBytes;
      const over = layer > 0 ? at - layerBytes : packed;
      forwardBand(at, over, r + first + layer * plane + 4 * band * row, min(4, rows - 4 * band), isDeep);
    }
  for (let layer = layers; layer-- > 0; )
    for (let band = bands; band-- > 0; ) {
      const at = packed + bandBytes + layer * layerBytes + band * bandBytes;
      const under = layer + 1 < layers ? at + layerBytes : at;
      backwardBand(at, under, z + first + layer * plane + 4 * band * row, min(4, rows - 4 * band), isDeep);
    }
}

/** One pass of the preconditioner: z, which may be r itself, becomes an approximate solution for r. */
export function precondition(packed: usize, r: usize, z: usize): void {
  if (layers > 1) preconditionIn(packed, r, z, true);
  else preconditionIn(packed, r, z, false);
}

@inline
function multiplyIn(
  own: usize, right: usize, up: usize, deep: usize, p: usize, image: usize, isDeep: bool,
): f64 {
  let product = f64x2.splat(0);
  for (let c = first; c < end; c += 16) {
    const here = v128.load(p + c);
    let value = f64x2.mul(v128.load(own + c), here);
    value = f64x2.sub(value, f64x2.mul(v128.load(right + c - 8), v128.load(p + c - 8)));
    value = f64x2.sub(value, f64x2.mul(v128.load(right + c), v128.load(p + c, 8)));
    value = f64x2.sub(value, f64x2.mul(v128.load(up + c - row), v128.load(p + c - row)));
    value = f64x2.sub(value, f64x2.mul(v128.load(up + c), v128.load(p + c + row)));
    if (isDeep) {
      value = f64x2.sub(value, f64x2.mul(v128.load(deep + c - plane), v128.load(p + c - plane)));
      value = f64x2.sub(value, f64x2.mul(v128.load(deep + c), v128.load(p + c + plane)));
    }
    v128.store(image + c, value);
    product = f64x2.add(product, f64x2.mul(value, here));
  }
  return f64x2.extract_lane(product, 0) + f64x2.extract_lane(product, 1);
}

/** image = matrix × p. Returns p·image. */
export function multiply(own: usize, right: usize, up: usize, p: usize, image: usize): f64 {
  return multiplyIn(own, right, up, 0, p, image, false);
}

/** The same for a part of several layers. */
export function multiplyDeep(own: usize, right: usize, up: usize, deep: usize, p: usize, image: usize): f64 {
  return multiplyIn(own, right, up, deep, p, image, true);
}

/** x += alpha·direction, r −= alpha·image. Returns whether no |r| exceeds `allowed` × capacity any more. */
export function advance(
  x: usize, direction: usize, r: usize, image: usize, alpha: f64, capacity: usize, allowed: f64,
): bool {
  const by = f64x2.splat(alpha);
  const limit = f64x2.splat(allowed);
  let exceeding = i64x2.splat(0);
  for (let c = first; c < end; c += 16) {
    v128.store(x + c, f64x2.add(v128.load(x + c), f64x2.mul(by, v128.load(direction + c))));
    const left = f64x2.sub(v128.load(r + c), f64x2.mul(by, v128.load(image + c)));
    v128.store(r + c, left);
    exceeding = v128.or(exceeding, f64x2.gt(f64x2.abs(left), f64x2.mul(limit, v128.load(capacity + c))));
  }
  return !v128.any_true(exceeding);
}

// ---- Small things ----

/** out = a·x + b·y. */
export function mix(a: f64, x: usize, b: f64, y: usize, out: usize): void {
  const aOfBoth = f64x2.splat(a);
  const bOfBoth = f64x2.splat(b);
  for (let c = first; c < end; c += 16)
    v128.store(
      out + c,
      f64x2.add(f64x2.mul(aOfBoth, v128.load(x + c)), f64x2.mul(bOfBoth, v128.load(y + c))),
    );
}

/** x·y. */
export function dot(x: usize, y: usize): f64 {
  let sum = f64x2.splat(0);
  for (let c = first; c < end; c += 16) sum = f64x2.add(sum, f64x2.mul(v128.load(x + c), v128.load(y + c)));
  return f64x2.extract_lane(sum, 0) + f64x2.extract_lane(sum, 1);
}

/** Flow error of a step: weighted flows at its start, middle and end, W. */
export function flowError(
  ofStart: f64, start: usize, ofMiddle: f64, middle: usize, middleBase: usize,
  ofEnd: f64, endHeat: usize, endBase: usize, out: usize,
): void {
  for (let c = first; c < end; c += 8)
    store<f64>(
      out + c,
      ofStart * load<f64>(start + c) +
        ofMiddle * (load<f64>(middle + c) - load<f64>(middleBase + c)) +
        ofEnd * (load<f64>(endHeat + c) - load<f64>(endBase + c)),
    );
}

/** Largest error of any cell, K; cells above the melting temperature before or after count only a share. */
export function largestError(errorK: usize, beforeC: usize, afterC: usize, meltingC: f64, poolShare: f64): f64 {
  let worst: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const isPool = max<f64>(load<f64>(beforeC + c), load<f64>(afterC + c)) > meltingC;
    worst = max<f64>(worst, abs<f64>(load<f64>(errorK + c)) * (isPool ? poolShare : 1));
  }
  return worst;
}

/** Raises the peaks to the temperatures given. */
export function raise(peakC: usize, tempC: usize): void {
  for (let c = first; c < end; c += 16)
    v128.store(peakC + c, f64x2.max(v128.load(peakC + c), v128.load(tempC + c)));
}

/** Adds the time above a limit on the straight line between two temperatures. */
export function addAbove(seconds: usize, limitC: f64, dtS: f64, fromC: usize, toC: usize): void {
  for (let c = first; c < end; c += 8) {
    const a = load<f64>(fromC + c) - limitC;
    const b = load<f64>(toC + c) - limitC;
    if (a <= 0 && b <= 0) continue;
    const share = a > 0 && b > 0 ? 1 : max<f64>(a, b) / abs<f64>(b - a);
    store<f64>(seconds + c, load<f64>(seconds + c) + dtS * share);
  }
}
