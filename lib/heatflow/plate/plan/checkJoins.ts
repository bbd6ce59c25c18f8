import { requireNumber, TemperbookError } from '../../../quantity';
import type { PlanLine, PlateJoin, PlatePlan } from './platePlan';

/** Two edges whose lengths differ by more than this share do not close. */
const GAP_SHARE = 0.01;

/** How sentences call a join. */
export const joinName = ({ name }: PlateJoin, index: number): string => name ?? `join ${index + 1}`;

/** Length of a line, mm. */
export const lineMm = ([from, to]: PlanLine): number => Math.hypot(to[0] - from[0], to[1] - from[1]);

/** Checks the joins of a plan as far as that goes without cells. @throws TemperbookError */
export function checkJoins({ joins = [] }: PlatePlan): void {
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
  }
}
