import {
  criticalRadiusM,
  diffusivityM2PerS,
  interfaceWtPct,
  nucleationPerM3S,
  publishedParameters as p,
} from '../../../lib/kinetics/precipitate';

/** Radius classes of the scheme, m: from 0.3 to 400 nm, equally wide in ln r. */
const LOW_M = 0.3e-9;
const HIGH_M = 400e-9;

/**
 * A second solver of the same equations, written only to check the first: implicit first-order upwind finite
 * volumes on fixed classes, the matrix taken from the balance after every step. Simple, and smeared: every
 * class crossed widens a sharp front, so it must be refined to be believed.
 * @returns mean-radius, number and matrix after an isothermal hold from solution, and the yield, MPa.
 */
export function upwindYieldMPa(
  solute: { Mg: number; Si: number; Cu: number },
  stages: readonly { readonly tempC: number; readonly timeS: number }[],
  classes: number,
): number {
  const width = Math.log(HIGH_M / LOW_M) / classes;
  const edge = Float64Array.from({ length: classes + 1 }, (_, j) => LOW_M * Math.exp(j * width));
  const centre = Float64Array.from({ length: classes }, (_, i) => Math.sqrt(edge[i]! * edge[i + 1]!));
  let counts = new Float64Array(classes);
  let next = new Float64Array(classes);
  let mg = solute.Mg;
  const speed = new Float64Array(classes + 1);
  const surface = new Float64Array(classes + 1);

  for (const { tempC, timeS } of stages) {
    const tempK = tempC + 273.15;
    const d = diffusivityM2PerS(p, tempK);
    for (let j = 0; j <= classes; j++) surface[j] = interfaceWtPct(p, tempK, edge[j]!);
    let time = 0;
    let step = 1e-3;
    while (time < timeS) {
      const dt = Math.min(step, timeS - time);
      for (let j = 0; j <= classes; j++)
        speed[j] = (((mg - surface[j]!) / (p.precipitateMgWtPct - surface[j]!)) * d) / edge[j]! ** 2;
      const born = nucleationPerM3S(p, tempK, mg) * dt;
      const at = Math.floor(
        Math.log((p.nucleusOverCritical * criticalRadiusM(p, tempK, mg)) / LOW_M) / width,
      );
      implicitUpwind(counts, speed, dt / width, born > 0 ? at : -1, born, next);
      let volume = 0;
      let before = 0;
      let after = 0;
      for (let i = 0; i < classes; i++) {
        volume += (4 / 3) * Math.PI * centre[i]! ** 3 * next[i]!;
        before += counts[i]!;
        after += next[i]!;
      }
      const mgNext = (solute.Mg - p.precipitateMgWtPct * volume) / (1 - volume);
      const change = Math.max(
        Math.abs(mgNext - mg) / (1e-3 * solute.Mg),
        before > 0 ? Math.abs(after - before) / (1e-2 * before) : 0,
      );
      step = dt * Math.min(1.3, Math.max(0.2, 0.9 / Math.max(change, 1e-9)));
      if ((change > 2 && before > 1e18) || !(mgNext > 0)) continue;
      [counts, next] = [next, counts];
      mg = mgNext;
      time += dt;
    }
  }

  let number = 0;
  let volume = 0;
  let radius = 0;
  let obstacle = 0;
  for (let i = 0; i < classes; i++) {
    number += counts[i]!;
    volume += (4 / 3) * Math.PI * centre[i]! ** 3 * counts[i]!;
    radius += centre[i]! * counts[i]!;
    obstacle += Math.min(centre[i]! / p.shearRadiusM, 1) * counts[i]!;
  }
  const line = 2 * p.lineTension * p.shearModulusPa * p.burgersM ** 2;
  const particle =
    ((p.taylorFactor / (p.burgersM * (radius / number))) *
      line ** -0.5 *
      Math.sqrt((3 * volume) / (2 * Math.PI)) *
      ((line * obstacle) / number) ** 1.5) /
    1e6;
  const si = Math.max(0, solute.Si - p.siliconPerMagnesium * (solute.Mg - mg));
  return 10 + 29 * mg ** (2 / 3) + 66.3 * si ** (2 / 3) + 46.4 * solute.Cu ** (2 / 3) + particle;
}

/** (1 + out) n − in = old + born: upwind fluxes, growing ones from the left, dissolving ones from the right. */
function implicitUpwind(
  old: Float64Array,
  speed: Float64Array,
  ratio: number,
  at: number,
  born: number,
  into: Float64Array,
): void {
  const n = old.length;
  // Speeds change sign once, so the system splits: dissolve from the top down, grow from the bottom up.
  let root = 0;
  while (root <= n && speed[root]! <= 0) root++;
  const rhs = (i: number) => old[i]! + (i === at ? born : 0);
  // Class root − 1 loses through both edges and gains through neither.
  const split = Math.min(n - 1, Math.max(0, root - 1));
  const loss = (i: number) => 1 + ratio * (Math.max(0, speed[i + 1]!) + Math.max(0, -speed[i]!));
  into[split] = rhs(split) / loss(split);
  for (let i = split + 1; i < n; i++)
    into[i] = (rhs(i) + ratio * Math.max(0, speed[i]!) * into[i - 1]!) / loss(i);
  for (let i = split - 1; i >= 0; i--)
    into[i] = (rhs(i) + ratio * Math.max(0, -speed[i + 1]!) * into[i + 1]!) / loss(i);
}
