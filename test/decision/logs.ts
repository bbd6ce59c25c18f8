import { type JudgeOptions, judge, type Verdict } from '../../lib/decision';
import { readLog } from '../../lib/log';

/** What a probe reads at a time: a temperature in °C, or words that stand for none. */
export type Course = (t: number) => number | string;

export const AIR_C = 22;
/** Up at 12 K/s to `peakC`, then back to the air with a time constant: a probe some centimetres from an arc. */
export const pass =
  (startS: number, peakC: number, tauS = 60) =>
  (t: number): number => {
    const topS = startS + (peakC - AIR_C) / 12;
    if (t <= startS) return AIR_C;
    return t < topS ? AIR_C + 12 * (t - startS) : AIR_C + (peakC - AIR_C) * Math.exp(-(t - topS) / tauS);
  };
export const cool = (): number => AIR_C + 0.5;

/** Noise of about ±0.2 K that is the same in every run and differs from channel to channel. */
function noise(t: number, channel: number): number {
  const x = Math.sin(t * 12.9898 + channel * 78.233) * 43758.5453;
  return 0.4 * (x - Math.floor(x) - 0.5);
}

/** A logger's file: a line of words, a header, a row every so many seconds; a tenth of a degree, with noise. */
export function csv(
  columns: Readonly<Record<string, Course>>,
  {
    toS,
    everyS = 1,
    fromS = 0,
    words = '',
  }: { toS: number; everyS?: number; fromS?: number; words?: string },
): string {
  const rows: string[] = [];
  for (let t = fromS; t <= toS; t += everyS)
    rows.push(
      [
        t,
        ...Object.values(columns).map((course, k) => {
          const at = course(t);
          return typeof at === 'string' ? at : (at + noise(t, k)).toFixed(1);
        }),
      ].join(','),
    );
  const names = Object.keys(columns).map((name) => `${name} (°C)`);
  return `${words && `${words}\n`}${['time (s)', ...names].join(',')}\n${rows.join('\n')}\n`;
}

export const USUAL: JudgeOptions = { alloy: 'A356.0', temper: 'T6', attachment: 'welded wires' };

/** From the bytes of a file to the verdict. */
export const judged = (text: string, more: Partial<JudgeOptions> = {}): Verdict =>
  judge(readLog(Buffer.from(text), { name: 'mast-foot.csv' }), { ...USUAL, ...more });
