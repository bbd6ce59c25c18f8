import { DRAW_COLUMNS, type MemberDraw } from '../memberDraw';
import { drawOfTable, type MemberTable } from '../memberTable';
import { TELLING_QUESTIONS } from './tellingQuestions';

/** Median, 5 and 95 % of one quantity over the draws of a table. */
export interface Spread {
  readonly low: number;
  readonly median: number;
  readonly high: number;
}

/** What a new fit moved: one line for every constant and for every heat the kit is asked about. */
export interface MovedLine {
  readonly what: string;
  readonly before: Spread | null;
  readonly after: Spread;
  /** Shift of the median in half-widths of the new 90 % band. */
  readonly shift: number | null;
}

/** The new members beside those they replace. */
export function fitReport(after: MemberTable, before: MemberTable | null): readonly MovedLine[] {
  const line = (what: string, of: (draw: MemberDraw) => number): MovedLine => {
    const now = spreadOf(after, of);
    const then = before && spreadOf(before, of);
    const half = (now.high - now.low) / 2;
    return {
      what,
      before: then,
      after: now,
      shift: then && half > 0 ? (now.median - then.median) / half : null,
    };
  };
  return [
    ...DRAW_COLUMNS.map((column) => line(column, (draw) => draw[column])),
    ...TELLING_QUESTIONS.map(({ what, ask }) => line(what, ask)),
  ];
}

function spreadOf(table: MemberTable, of: (draw: MemberDraw) => number): Spread {
  const values = Float64Array.from({ length: table.count }, (_, i) => of(drawOfTable(table, i))).sort();
  const at = (p: number): number => values[Math.floor(p * (values.length - 1))]!;
  return { low: at(0.05), median: at(0.5), high: at(0.95) };
}
