import type { CodeAnswer } from '../codes/codeAnswer';
import type { AloneResistance, LoadableCheck } from './sectionCheck';

const ACTIONS: readonly (readonly [keyof AloneResistance, string])[] = [
  ['axialN', 'tension'],
  ['momentXNmm', 'bending about x'],
  ['momentYNmm', 'bending about y'],
];

/**
 * Where a modelled soft zone lets a section take more than a code does, in words: a zone may be softer than the code's
 * and yet leave more metal, being narrower. Yield, each action alone.
 */
export function aboveTheCode(
  model: readonly LoadableCheck[],
  code: CodeAnswer<{ readonly checks: readonly LoadableCheck[] }>,
): string[] {
  if (!code.supported) return [`No code gives a section to hold this against: ${code.why}`];
  const least = (checks: readonly LoadableCheck[], action: keyof AloneResistance): number =>
    Math.min(...checks.filter(({ on }) => on === 'yield').map(({ alone }) => alone[action] ?? Infinity));
  const over = ACTIONS.flatMap(([action, name]) => {
    const share = least(model, action) / least(code.checks, action);
    return share > 1 + 1e-9 ? [`${(100 * (share - 1)).toFixed(0)} % in ${name}`] : [];
  });
  if (over.length === 0) return ['The section takes no more by the model than by EN 1999-1-1.'];
  return [
    `ABOVE THE CODE: by the model the section takes more than by EN 1999-1-1 (${over.join(', ')}). Size by the code unless a test shows otherwise.`,
  ];
}
