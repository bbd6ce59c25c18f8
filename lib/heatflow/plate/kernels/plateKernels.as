// The plate solver's loops over cells, in AssemblyScript (TypeScript's syntax, compiled to WebAssembly): the same
// loops in JavaScript take three times as long, because every array access is checked on its own.
// `node lib/heatflow/plate/kernels/compile.mjs` turns this file into plateKernelsWasm.ts.
//
// A field is the address of one 64-bit number per cell. Fields hold the grid row by row with one guard row before and
// one after it; `first` and `end` enclose the grid and `row` is the way to the cell above, all in bytes. Loops that take
// two cells at once (f64x2) may run one cell into the guard row behind, where zeros stay zeros.

let first: usize = 0;
let end: usize = 0;
let row: usize = 0;

export function setGrid(firstCell: usize, endCell: usize, columns: usize): void {
  first = firstCell << 3;
  end = endCell << 3;
  row = columns << 3;
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
export function fillFaces(
  tempC: usize, relativeK: usize, faceRight: usize, faceUp: usize, right: usize, up: usize, netW: usize,
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
    store<f64>(netW + c, load<f64>(netW + c) + (fromLeft + fromBelow - flowRight - flowUp));
    fromLeft = flowRight;
  }
}

// ---- One implicit stage ----

/** Diagonal and residual of the linearised stage, W/K and W. */
export function linearise(
  base: usize, heat: usize, perS: f64, capacity: usize, airSlope: usize, netW: usize, right: usize, up: usize,
  own: usize, residual: usize,
): void {
  let left: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const toRight = load<f64>(right + c);
    const faces = left + toRight + load<f64>(up + c) + load<f64>(up + c - row);
    store<f64>(own + c, perS * load<f64>(capacity + c) + load<f64>(airSlope + c) + faces);
    store<f64>(residual + c, perS * (load<f64>(base + c) - load<f64>(heat + c)) + load<f64>(netW + c));
    left = toRight;
  }
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

// ---- Linear solver: own·x − Σ conductance · x of the four neighbours = r ----

/** Pivots of the modified incomplete Cholesky factor. `relaxation` is the share of neglected fill given back. */
export function factor(own: usize, right: usize, up: usize, relaxation: f64, pivot: usize): void {
  for (let c = first; c < end; c += 8) {
    const left = load<f64>(right + c - 8);
    const below = load<f64>(up + c - row);
    const fill =
      left * load<f64>(pivot + c - 8) * (left + relaxation * load<f64>(up + c - 8)) +
      below * load<f64>(pivot + c - row) * (below + relaxation * load<f64>(right + c - row));
    store<f64>(pivot + c, 1 / (load<f64>(own + c) - fill));
  }
}

/** One pass of the preconditioner: z, which may be r itself, becomes an approximate solution for r. Returns r·z. */
export function precondition(right: usize, up: usize, pivot: usize, r: usize, half: usize, z: usize): f64 {
  let before: f64 = 0;
  for (let c = first; c < end; c += 8) {
    const p = load<f64>(pivot + c);
    const rest = (load<f64>(r + c) + load<f64>(up + c - row) * load<f64>(half + c - row)) * p;
    before = rest + load<f64>(right + c - 8) * p * before;
    store<f64>(half + c, before);
  }
  let rz: f64 = 0;
  let after: f64 = 0;
  for (let c = end - 8; c >= first; c -= 8) {
    const p = load<f64>(pivot + c);
    const rest = load<f64>(half + c) + load<f64>(up + c) * p * load<f64>(z + c + row);
    after = rest + load<f64>(right + c) * p * after;
    rz += load<f64>(r + c) * after;
    store<f64>(z + c, after);
  }
  return rz;
}

/** image = matrix × p. Returns p·image. */
export function multiply(own: usize, right: usize, up: usize, p: usize, image: usize): f64 {
  let product = f64x2.splat(0);
  for (let c = first; c < end; c += 16) {
    const here = v128.load(p + c);
    let value = f64x2.mul(v128.load(own + c), here);
    value = f64x2.sub(value, f64x2.mul(v128.load(right + c - 8), v128.load(p + c - 8)));
    value = f64x2.sub(value, f64x2.mul(v128.load(right + c), v128.load(p + c, 8)));
    value = f64x2.sub(value, f64x2.mul(v128.load(up + c - row), v128.load(p + c - row)));
    value = f64x2.sub(value, f64x2.mul(v128.load(up + c), v128.load(p + c + row)));
    v128.store(image + c, value);
    product = f64x2.add(product, f64x2.mul(value, here));
  }
  return f64x2.extract_lane(product, 0) + f64x2.extract_lane(product, 1);
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
  let sum: f64 = 0;
  for (let c = first; c < end; c += 8) sum += load<f64>(x + c) * load<f64>(y + c);
  return sum;
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
