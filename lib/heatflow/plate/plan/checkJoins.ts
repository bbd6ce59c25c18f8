import { requireNumber, TemperbookError } from '../../../quantity';
import type { PlanLine, PlanPoint, PlateJoin, PlatePlan } from './platePlan';
import { isInside } from './shape';

/** Two edges whose lengths differ by more than this share do not close. */
const GAP_SHARE = 0.01;

/** A line lies on an edge when that is so near, mm; in small cells half of one. */
const SLACK_MM = 0.5;
/** Points of a line that are looked at. */
const POINTS = 8;

/** How sentences call a join. */
export const joinName = ({ name }: PlateJoin, index: number): string => name ?? `join ${index + 1}`;

/** Length of a line, mm. */
export const lineMm = ([from, to]: PlanLine): number => Math.hypot(to[0] - from[0], to[1] - from[1]);

/** Checks the joins of a plan as far as that goes without cells. @throws TemperbookError */
export function checkJoins(plan: PlatePlan): void {
  const { joins = [] } = plan;
  for (const [i, join] of joins.entries()) {
    const name = joinName(join, i);
    const other = join.toEdgeMm ?? join.ontoMm;
    if (!other || (join.toEdgeMm && join.ontoMm))
      throw new TemperbookError(`The join "${name}" needs one other side`, {
        found: other ? 'toEdgeMm and ontoMm' : 'neither toEdgeMm nor ontoMm',
        expected: 'toEdgeMm for an edge that meets an edge, ontoMm for an edge that stands on a face',
      });
    for (const line of [join.edgeMm, other]) {
      for (const value of line.flat())
        requireNumber(value, `a line of the join "${name}"`, { low: -1e5, high: 1e5 });
      if (!(lineMm(line) > 0))
        throw new TemperbookError(`A line of the join "${name}" has no length`, {
          found: JSON.stringify(line),
        });
    }
    const [own, its] = [lineMm(join.edgeMm), lineMm(other)];
    if (Math.abs(own - its) > GAP_SHARE * Math.max(own, its))
      throw new TemperbookError(`The two sides of the join "${name}" do not close`, {
        found: `${own.toFixed(1)} mm against ${its.toFixed(1)} mm`,
        expected: 'lines of one length',
        remedy: 'Let both lines run along the whole of the edge they stand for',
      });
    for (const line of [join.edgeMm, ...(join.toEdgeMm ? [join.toEdgeMm] : [])]) checkEdge(line, name, plan);
  }
}

/** Refuses a line that runs beside an edge: cells as large as the way between would take it for that edge. */
function checkEdge(line: PlanLine, name: string, { part, cellMm }: PlatePlan): void {
  const slackMm = Math.min(SLACK_MM, cellMm / 2);
  const mm = lineMm(line);
  const left: PlanPoint = [-(line[1][1] - line[0][1]) / mm, (line[1][0] - line[0][0]) / mm];
  const at = (share: number, asideMm: number): PlanPoint => [
    line[0][0] + share * (line[1][0] - line[0][0]) + asideMm * left[0],
    line[0][1] + share * (line[1][1] - line[0][1]) + asideMm * left[1],
  ];
  // Where regions overlap the later counts, and one without thickness is a hole.
  const isMetal = ([x, y]: PlanPoint): boolean =>
    ([...part].reverse().find(({ shape }) => isInside(shape, x, y))?.thicknessMm ?? 0) > 0;
  const isEdge = (share: number, asideMm: number): boolean =>
    isMetal(at(share, asideMm - slackMm)) !== isMetal(at(share, asideMm + slackMm));
  const nearby = Array.from({ length: Math.ceil(cellMm / slackMm) }, (_, i) => (i + 1) * slackMm);
  for (let k = 0; k < POINTS; k++) {
    const share = (k + 0.5) / POINTS;
    if (isEdge(share, 0)) continue;
    const asideMm = nearby.flatMap((aside) => [aside, -aside]).find((aside) => isEdge(share, aside));
    // What is further off than a cell is told by the cells: metal on both sides, or a gap.
    if (asideMm === undefined) continue;
    let [low, high] = [asideMm - slackMm, asideMm + slackMm];
    for (let halving = 0; halving < 20; halving++) {
      const middle = (low + high) / 2;
      if (isMetal(at(share, middle)) === isMetal(at(share, low))) low = middle;
      else high = middle;
    }
    // Plus 0, so that an edge at 0 is not told as -0.0.
    const mmOf = (value: number) => (Math.round(10 * value) / 10 + 0).toFixed(1);
    const told = ([x, y]: PlanPoint) => `x ${mmOf(x)} mm, y ${mmOf(y)} mm`;
    const edge = `the edge is at ${told(at(share, high))}`;
    const isInMetal = isMetal(at(share, 0));
    throw new TemperbookError(
      isInMetal ? `A line of the join "${name}" is no edge of the part` : `The join "${name}" has a gap`,
      {
        found: `${isInMetal ? 'metal on both sides of' : 'no metal at'} ${told(at(share, 0))}; ${edge}`,
        expected: 'a line along an edge, metal on one side of it',
        remedy:
          'Put both ends of the line on the edge; a tube laid flat is as wide as its mean circumference',
      },
    );
  }
}
