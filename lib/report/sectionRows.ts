import type { FillerChoice, SectionFactor, SectionSize, SizedAt, WeldedResistance } from '../section';
import type { TableRow } from './table';

const kN = (newton: number | null): string => (newton === null ? '—' : `${(newton / 1000).toFixed(1)} kN`);
const kNm = (nmm: number | null): string => (nmm === null ? '—' : `${(nmm / 1e6).toFixed(3)} kN m`);

/** One row per check of a section: what each action alone may reach, and the factor under the loads where given. */
export function checkRows({ checks }: WeldedResistance, factor?: SectionFactor): TableRow[] {
  return checks.map((check) => {
    const worst = factor?.table.filter((row) => row.check === check.name).sort((a, b) => a.low - b.low)[0];
    return {
      Check: check.name,
      Strength: `${check.strengthMPa.toFixed(0)} MPa`,
      'Tension alone': kN(check.alone.axialN),
      'Bending about x': kNm(check.alone.momentXNmm),
      'Bending about y': kNm(check.alone.momentYNmm),
      Torsion: kNm(check.alone.torsionNmm),
      'Asked by the code': check.askedByCode ? 'yes' : 'no',
      ...(factor ? { Factor: worst ? worst.factor.toFixed(2) : '' } : {}),
    };
  });
}

/** As it is, the least and the stock size. */
export function sizeRows({ present, least, stock }: SectionSize): TableRow[] {
  const row = (name: string, size: SizedAt | null): TableRow[] =>
    size
      ? [
          {
            Size: name,
            Thickness: `${Number(size.thicknessMm.toFixed(2))} mm`,
            Factor: size.factor ? factorText(size.factor) : 'no answer',
            Weight: size.massKgPerM === null ? '—' : `${size.massKgPerM.toFixed(2)} kg/m`,
            Governs: size.governs?.check ?? size.why ?? '',
            'Buckles first':
              size.slenderWalls.length > 0 ? [...new Set(size.slenderWalls)].join(', ') : 'no wall',
          },
        ]
      : [];
  return [...row('now', present), ...row('least', least), ...row('stock', stock)];
}

/** Fillers with their reasons, those that suit first. */
export function fillerRows(choices: readonly FillerChoice[]): TableRow[] {
  return choices.map(({ filler, verdict, reasons, weldMetalMPa }) => ({
    Filler: filler,
    Verdict: verdict,
    'Weld metal': weldMetalMPa === null ? 'no code value' : `${weldMetalMPa} MPa (from memory)`,
    Why: reasons
      .map(({ text, weight, known }) => `${weight}: ${text}${known === 'memory' ? ' (from memory)' : ''}`)
      .join('; '),
  }));
}

function factorText({ nominal, low, high }: { nominal: number; low: number; high: number }): string {
  return high - low < 0.005
    ? nominal.toFixed(2)
    : `${nominal.toFixed(2)} (${low.toFixed(2)}–${high.toFixed(2)})`;
}
