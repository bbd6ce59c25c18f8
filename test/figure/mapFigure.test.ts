import { describe, expect, it } from 'vitest';
import { mapFigure, staticSvg } from '../../lib/figure';

const timeS = Float64Array.from({ length: 41 }, (_, j) => 10 ** (j / 10));
const tempC = Float64Array.from({ length: 21 }, (_, i) => 100 + 20 * i);
/** Falls by 1/8 per decade and 100 °C above 100: reaches 0.9 at log t = 0.8 · 100/(T − 100). */
const kept = (s: number, c: number): number => 1 - (Math.log10(s) * (c - 100)) / 800;
const grid = Array.from(tempC, (c) => Array.from(timeS, (s) => kept(s, c)));

describe('the sure zone of a map', () => {
  const { data } = mapFigure({ timeS, tempC, keptFraction: grid, keptLow: grid });
  const [zone, edge] = data.filter(({ type }) => type === 'scatter');

  it('has its edge where the low line falls below what is needed', () => {
    const inside = edge!.x!.flatMap((x, k) => (x! > 1 && x! < 1e4 ? [[x!, edge!.y![k]!] as const] : []));
    expect(inside.length).toBeGreaterThan(15);
    // Straight in log t and in T, as the interpolation is: nothing but rounding to 6 digits.
    for (const [s, c] of inside) expect(kept(s, c)).toBeCloseTo(0.9, 4);
  });

  it('runs to the borders of the map and is closed along them', () => {
    // At 10⁴ s the level is reached at 120 °C; at 1 s nothing is lost at any temperature.
    expect([edge!.x![0], edge!.y![0]]).toEqual([1e4, 120]);
    expect(edge!.y![edge!.y!.length - 1]).toBe(500);
    expect(zone!.fill).toBe('toself');
    const corners = zone!.x!.slice(-3).map((x, k) => [x, zone!.y!.slice(-3)[k]]);
    expect(corners).toEqual([
      [1, 500],
      [1, 100],
      [1e4, 100],
    ]);
  });

  it('follows the allowance', () => {
    const wide = mapFigure({ timeS, tempC, keptFraction: grid, keptLow: grid }, { allowanceFraction: 0.2 });
    expect(wide.data.map(({ name }) => name)).toContain('below this the worst case keeps 80 %');
  });

  it('is left out where nothing is sure, and without a low line', () => {
    const lost = grid.map((row) => row.map(() => 0.5));
    const names = (keptLow?: typeof grid) =>
      mapFigure({ timeS, tempC, keptFraction: grid, ...(keptLow ? { keptLow } : {}) }).data.filter(
        ({ fill }) => fill === 'toself',
      );
    expect(names(lost)).toEqual([]);
    expect(names()).toEqual([]);
  });
});

describe('gains on a map', () => {
  it('are dotted lines with a name, only where there are any', () => {
    const risen = grid.map((row) => row.map((value, j) => value + (j > 10 && j < 20 ? 0.2 : 0)));
    const dotted = (keptFraction: typeof grid) =>
      mapFigure({ timeS, tempC, keptFraction }).data.filter(({ line }) => line?.dash === 'dot');
    expect(dotted(risen)).toHaveLength(2);
    expect(dotted(grid)).toEqual([]);
  });
});

describe('names on a map', () => {
  const points = [
    { label: 'ageing to T6', tempC: 177, timeS: [3600, 7200] as const },
    { label: 'age again after welding', tempC: 177, timeS: 3000 },
    { label: 'powder-coat cure', tempC: 180, timeS: 2000 },
    { label: 'late', tempC: 300, timeS: 9000 },
    { label: 'out of the map', tempC: 900, timeS: 60 },
  ];
  const lines = [
    {
      label: 'limits',
      points: [
        { tempC: 200, timeS: 600 },
        { tempC: 220, timeS: 60 },
      ],
    },
  ];
  const { layout, data } = mapFigure({ timeS, tempC, keptFraction: grid }, { points, lines });
  const labels = layout.annotations!.filter(({ xref }) => xref === 'x');

  it('stand beside their marks, inside the map, and leave out what is not on it', () => {
    expect(labels.map(({ text }) => text).filter((text) => !text.endsWith('%'))).toEqual([
      'ageing to T6',
      'age again after welding',
      'powder-coat cure',
      'late',
      'limits',
    ]);
    expect(labels.find(({ text }) => text === 'late')!.xanchor).toBe('right');
  });

  it('of levels stand on their lines', () => {
    const levels = labels.filter(({ text }) => text.endsWith('%'));
    expect(levels.length).toBeGreaterThan(0);
    for (const { xanchor, yanchor } of levels) expect([xanchor, yanchor]).toEqual(['center', 'middle']);
  });

  it('do not lie on each other', () => {
    // As wide as the static picture draws them: 766 px for 4 decades, 434 px for 400 °C, about 6.6 px a letter.
    const boxes = labels.map(({ x, y, text, xanchor, xshift = 0, yshift = 0 }) => {
      const at = (x * 766) / 4 + xshift;
      const left = at - text.length * 6.6 * { left: 0, center: 0.5, right: 1 }[xanchor];
      const middle = ((500 - y) * 434) / 400 - yshift;
      return { left, right: left + text.length * 6.6, top: middle - 7, bottom: middle + 7 };
    });
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1))
        expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
  });

  it('a span of time is a bar, a single time a dot', () => {
    const dots = data.find(({ mode }) => mode === 'markers')!;
    expect(dots.x).toEqual([3600, 7200, 3000, 2000, 9000, 60, 600, 60]);
  });
});

describe('where no model answers', () => {
  it('the static picture stays white, without the colours of greater losses along the edge', () => {
    const blank = grid.map((row, i) => row.map((value) => (i > 15 ? null : Math.max(value, 0.75))));
    const svg = staticSvg(mapFigure({ timeS, tempC, keptFraction: blank }));
    const fills = [...svg.matchAll(/fill="(rgb[^"]+|#[0-9a-f]{6})"/g)].map(([, colour]) => colour);
    const whole = staticSvg(mapFigure({ timeS, tempC, keptFraction: grid }));
    const lines = (picture: string) => [...picture.matchAll(/stroke="#4a2a1c"/g)].length;
    // Levels 80 and 90 % only; the whole field loses everything.
    expect(lines(svg)).toBe(2);
    expect(lines(whole)).toBe(9);
    expect(fills).toContain('#ffffff');
    expect(svg).not.toMatch(/NaN|undefined/);
  });
});
