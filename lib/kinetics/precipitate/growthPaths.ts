/**
 * Closed-form growth paths at fixed temperature and matrix. The speed w = d(ln r)/dθ is known at nodes equally
 * spaced in ln r and is a straight line between them; it changes sign once, at the critical radius, where
 * particles part: below it they dissolve, above it they grow.
 */
export interface GrowthPaths {
  /** Takes new node speeds (1/m²) of the first `nodes` nodes: as many as particles may reach in the step. */
  set(speed: Float64Array, nodes: number): void;
  /** Where a particle now at `ln r` (as node units from the first node) is after θ; below 0: dissolved. */
  ahead(position: number, thetaM2: number): number;
  /** Where a particle now at the first node was θ ago, in node units. */
  survivorBefore(thetaM2: number): number;
}

/** Makes the working arrays for up to `most` nodes; positions count in nodes from 0. */
export function growthPaths(most: number, spacingLn: number): GrowthPaths {
  let nodes = most;
  let top = most - 1;
  const w = new Float64Array(most);
  /** θ from the node next to the critical radius to each node, outwards on both sides. */
  const travel = new Float64Array(most);
  /** First node that grows; `nodes` if none does. */
  let root = 0;
  /** Nodes up to here have their travel worked out. */
  let reach = 0;

  function set(speed: Float64Array, used: number): void {
    nodes = used;
    top = used - 1;
    for (let j = 0; j < nodes; j++) w[j] = speed[j]! / spacingLn;
    root = firstGrowing(w, nodes);
    reach = root;
    if (root < nodes) travel[root] = 0;
    if (root > 0) travel[root - 1] = 0;
    for (let j = root - 2; j >= 0; j--) travel[j] = travel[j + 1]! + crossing(w[j + 1]!, w[j]!);
  }

  function travelTo(node: number): number {
    while (reach < node) {
      travel[reach + 1] = travel[reach]! + crossing(w[reach]!, w[reach + 1]!);
      reach++;
    }
    return travel[node]!;
  }

  function grow(node: number, thetaM2: number): number {
    let k = node;
    const target = travelTo(k) + thetaM2;
    while (k < top && travelTo(k + 1) <= target) k++;
    return k === top ? top : k + run(w[k]!, w[k + 1]!, target - travelTo(k));
  }

  function dissolve(node: number, thetaM2: number): number {
    let k = node;
    const target = travel[k]! + thetaM2;
    while (k > 0 && travel[k - 1]! <= target) k--;
    return k === 0 ? -1 : k - run(w[k]!, w[k - 1]!, target - travel[k]!);
  }

  function ahead(position: number, thetaM2: number): number {
    const k = Math.min(top - 1, Math.floor(position));
    const share = position - k;
    const lower = w[k]!;
    const upper = w[k + 1]!;
    if (k >= root) return grow(k, thetaM2 + partial(lower, upper, share));
    if (k + 1 < root) return dissolve(k + 1, thetaM2 + partial(upper, lower, 1 - share));
    // The class of the critical radius: paths part exponentially from it.
    const rate = upper - lower;
    const standing = -lower / rate;
    const away = share - standing;
    const target = k + standing + away * Math.exp(rate * thetaM2);
    if (target >= k + 1) return grow(k + 1, thetaM2 - Math.log((1 - standing) / away) / rate);
    if (target <= k) return k === 0 ? -1 : dissolve(k, thetaM2 - Math.log(-standing / away) / rate);
    return target;
  }

  function survivorBefore(thetaM2: number): number {
    if (root === 0) return 0;
    const target = travel[0]! - thetaM2;
    if (target < 0) {
      // Out of the class that holds the critical radius; from beyond all radii if there is none.
      if (root === nodes) return top;
      const rate = w[root]! - w[root - 1]!;
      return root - 1 - (w[root - 1]! / rate) * -Math.expm1(rate * target);
    }
    let k = 0;
    while (k < root - 1 && travel[k + 1]! > target) k++;
    return k + 1 - run(w[k + 1]!, w[k]!, target - travel[k + 1]!);
  }

  return { set, ahead, survivorBefore };
}

function firstGrowing(w: Float64Array, nodes: number): number {
  let low = 0;
  let high = nodes;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (w[mid]! > 0) high = mid;
    else low = mid + 1;
  }
  return low;
}

/** θ from a node of speed `a` to the next of speed `b` (same sign), speeds in nodes per θ. */
function crossing(a: number, b: number): number {
  return partial(a, b, 1);
}

/** θ for a share of the way from a node of speed `a` towards one of speed `b`. */
function partial(a: number, b: number, share: number): number {
  const change = (b / a - 1) * share;
  const mean = Math.abs(change) < 1e-5 ? 1 - change / 2 : Math.log1p(change) / change;
  return (share * mean) / Math.abs(a);
}

/** Share of the way run in θ from a node of speed `a` towards one of speed `b`. */
function run(a: number, b: number, thetaM2: number): number {
  const start = Math.abs(a);
  const x = (Math.abs(b) - start) * thetaM2;
  const mean = Math.abs(x) < 1e-5 ? 1 + x / 2 : Math.expm1(x) / x;
  return Math.min(1, start * thetaM2 * mean);
}
