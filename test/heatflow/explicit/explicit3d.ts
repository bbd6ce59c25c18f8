/**
 * An independent solution of the heat equation in three dimensions, to hold the layered solver against: cubes of one
 * size, forward Euler steps, constant properties. It shares no code with lib/heatflow; slow and plain on purpose.
 *
 * ρc ∂T/∂t = ∇·(k ∇T), air on every outer face, the arc as flux into the uppermost cubes. Steps are 0.9 of what keeps
 * the scheme stable (h²/6α, H. S. Carslaw & J. C. Jaeger, Conduction of Heat in Solids, 1959, chapter 18).
 */
export interface Block {
  /** [x0, x1, y0, y1, z0, z1], mm; z points down from the face the arc is on. Later blocks win. */
  readonly boxMm: readonly [number, number, number, number, number, number];
  readonly metal: Metal;
}

export interface Metal {
  readonly densityKgPerM3: number;
  readonly conductivityWPerMK: number;
  readonly specificHeatJPerKgK: number;
}

export interface ExplicitJob {
  readonly edgeMm: number;
  readonly blocks: readonly Block[];
  readonly filmWPerM2K: number;
  readonly ambientC: number;
  readonly initialC: number;
  readonly arcs: readonly {
    readonly fromMm: readonly [number, number];
    readonly toMm: readonly [number, number];
    readonly startS: number;
    readonly travelMmPerS: number;
    readonly netPowerW: number;
    readonly radiusMm: number;
  }[];
  /** x, y, z in mm; read in the cube that holds the point and, on a face, from the two cubes below it. */
  readonly probesMm: readonly (readonly [number, number, number])[];
  readonly untilS: number;
  readonly everyS: number;
  /** The first column of cubes touches the last one: a ring laid flat. */
  readonly isRing?: boolean;
}

export interface ExplicitRun {
  readonly timeS: number[];
  readonly tempC: number[][];
  readonly peakC: number[];
}

export function explicit3d(job: ExplicitJob): ExplicitRun {
  const h = job.edgeMm;
  const low = [0, 2, 4].map((i) => Math.min(...job.blocks.map(({ boxMm }) => boxMm[i]!)));
  const high = [1, 3, 5].map((i) => Math.max(...job.blocks.map(({ boxMm }) => boxMm[i]!)));
  const [nx, ny, nz] = [0, 1, 2].map((i) => Math.round((high[i]! - low[i]!) / h)) as [number, number, number];
  // One cube of nothing all round.
  const [sy, sz] = [nx + 2, (nx + 2) * (ny + 2)];
  const count = sz * (nz + 2);
  const index = (i: number, j: number, k: number) => i + 1 + (j + 1) * sy + (k + 1) * sz;
  const k = new Float64Array(count);
  const heat = new Float64Array(count);
  for (let c = 0; c < nz; c++)
    for (let b = 0; b < ny; b++)
      for (let a = 0; a < nx; a++) {
        const at = [a, b, c].map((n, i) => low[i]! + (n + 0.5) * h) as [number, number, number];
        for (const { boxMm, metal } of job.blocks)
          if ([0, 1, 2].every((i) => at[i]! > boxMm[2 * i]! && at[i]! < boxMm[2 * i + 1]!)) {
            k[index(a, b, c)] = metal.conductivityWPerMK / 1000;
            heat[index(a, b, c)] = metal.densityKgPerM3 * metal.specificHeatJPerKgK * 1e-9 * h ** 3;
          }
      }
  const series = (a: number, b: number) => (a > 0 && b > 0 ? (2 * a * b * h) / (a + b) : 0);
  const ways = [1, sy, sz];
  const faces = ways.map((way) => k.map((here, c) => (c + way < count ? series(here, k[c + way]!) : 0)));
  const ring: [number, number, number][] = [];
  if (job.isRing)
    for (let c = 0; c < nz; c++)
      for (let b = 0; b < ny; b++) {
        const [from, to] = [index(0, b, c), index(nx - 1, b, c)];
        ring.push([from, to, series(k[from]!, k[to]!)]);
      }
  const bare = k.map((here, c) => {
    if (here === 0) return 0;
    const open = ways.reduce((n, way) => n + (k[c + way] === 0 ? 1 : 0) + (k[c - way] === 0 ? 1 : 0), 0);
    return open * h * h * job.filmWPerM2K * 1e-6;
  });
  for (const [from, to] of ring) for (const c of [from, to]) bare[c]! -= h * h * job.filmWPerM2K * 1e-6;
  const tops: { c: number; x: number; y: number }[] = [];
  for (let b = 0; b < ny; b++)
    for (let a = 0; a < nx; a++) {
      const c = Array.from({ length: nz }, (_, n) => index(a, b, n)).find((n) => k[n]! > 0);
      if (c !== undefined) tops.push({ c, x: low[0]! + (a + 0.5) * h, y: low[1]! + (b + 0.5) * h });
    }
  let alpha = 0;
  for (let c = 0; c < count; c++) if (k[c]! > 0) alpha = Math.max(alpha, (k[c]! * h ** 3) / heat[c]!);
  const samples = Math.round(job.untilS / job.everyS);
  const perSample = Math.ceil(job.everyS / ((0.9 * h * h) / 6 / alpha));
  const dt = job.everyS / perSample;

  const temp = new Float64Array(count).fill(job.initialC);
  const gain = new Float64Array(count);
  const read = ([x, y, z]: readonly [number, number, number]): number => {
    const exact = [x, y, z].map((mm, i) => (mm - low[i]!) / h);
    // On a corner of cubes a reading is the mean of those around it.
    const spread = (n: number) =>
      Math.abs(n - Math.round(n)) < 1e-9 ? [Math.round(n) - 1, Math.round(n)] : [Math.floor(n)];
    let [sum, weights] = [0, 0];
    for (const a of spread(exact[0]!))
      for (const b of spread(exact[1]!)) {
        const cubes = spread(exact[2]!)
          .map((n) => index(a, b, n))
          .filter((c) => k[c]! > 0);
        if (cubes.length === 0) continue;
        // On a face temperature is even in z: from the two cubes beside it.
        const inwards = exact[2] === 0 ? sz : -sz;
        const [one] = cubes as [number];
        const onFace = Number.isInteger(exact[2]) && cubes.length === 1 && k[one + inwards]! > 0;
        sum += onFace
          ? (9 * temp[one]! - temp[one + inwards]!) / 8
          : cubes.reduce((m, c) => m + temp[c]!, 0) / cubes.length;
        weights++;
      }
    return sum / weights;
  };
  const timeS = [0];
  const tempC = [job.probesMm.map(read)];
  const [gx, gy, gz] = faces as [Float64Array, Float64Array, Float64Array];
  for (let sample = 1; sample <= samples; sample++) {
    for (let step = 0; step < perSample; step++) {
      const t = (sample - 1) * job.everyS + (step + 0.5) * dt;
      for (let c = sz; c < count - sz; c++) {
        const here = temp[c]!;
        gain[c] =
          gx[c]! * (temp[c + 1]! - here) +
          gx[c - 1]! * (temp[c - 1]! - here) +
          gy[c]! * (temp[c + sy]! - here) +
          gy[c - sy]! * (temp[c - sy]! - here) +
          gz[c]! * (temp[c + sz]! - here) +
          gz[c - sz]! * (temp[c - sz]! - here) -
          bare[c]! * (here - job.ambientC);
      }
      for (const [from, to, g] of ring) {
        const flow = g * (temp[from]! - temp[to]!);
        gain[from]! -= flow;
        gain[to]! += flow;
      }
      for (const arc of job.arcs) {
        const [dx, dy] = [arc.toMm[0] - arc.fromMm[0], arc.toMm[1] - arc.fromMm[1]];
        const length = Math.hypot(dx, dy);
        const way = (t - arc.startS) * arc.travelMmPerS;
        if (way < 0 || way > length) continue;
        const [x, y] = [arc.fromMm[0] + (dx / length) * way, arc.fromMm[1] + (dy / length) * way];
        const girth = nx * h;
        let sum = 0;
        const under: [number, number][] = [];
        for (const top of tops) {
          let apart = Math.abs(top.x - x);
          if (job.isRing) apart = Math.min(apart, girth - apart);
          const far = apart ** 2 + (top.y - y) ** 2;
          if (far > (2.6 * arc.radiusMm) ** 2) continue;
          const weight = Math.exp((-3 * far) / arc.radiusMm ** 2);
          under.push([top.c, weight]);
          sum += weight;
        }
        for (const [c, weight] of under) gain[c]! += (arc.netPowerW * weight) / sum;
      }
      for (let c = sz; c < count - sz; c++) if (heat[c]! > 0) temp[c]! += (dt * gain[c]!) / heat[c]!;
    }
    timeS.push(sample * job.everyS);
    tempC.push(job.probesMm.map(read));
  }
  return {
    timeS,
    tempC: job.probesMm.map((_, p) => tempC.map((row) => row[p]!)),
    peakC: job.probesMm.map((_, p) => Math.max(...tempC.map((row) => row[p]!))),
  };
}
