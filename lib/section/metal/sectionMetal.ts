import { TemperbookError } from '../../quantity';
import { alloySeries } from '../codes/alloySeries';
import { type CodeAnswer, unsupported } from '../codes/codeAnswer';
import { hazKnockDown } from '../codes/hazKnockDown';
import type { WeldedSection } from '../weldedSection';
import { americanMetal } from './americanMetal';
import { castParent, castPart, highwayCasting } from './castMetal';
import { europeanMetal } from './europeanMetal';
import type { ApartOptions } from './metalApart';
import type { SectionMetal } from './metalStrengths';
import { ownMetal } from './ownMetal';
import { profileMetal } from './profileMetal';

/** Strengths of a section's metal at a thickness by the code asked. */
export function sectionMetal(
  section: WeldedSection,
  options: ApartOptions,
  thicknessMm: number,
): CodeAnswer<SectionMetal> {
  const casting = alloySeries(options.alloy) === 'casting';
  switch (options.code) {
    case 'EN 1999-1-1':
      return casting ? castPart(section, options) : europeanMetal(section, options, thicknessMm);
    case 'Aluminum Design Manual':
      return casting ? castPart(section, options) : americanMetal(section, options, thicknessMm);
    case 'AASHTO LTS':
      return casting
        ? highwayCasting(section, options)
        : unsupported(
            'The table of AASHTO LTS known here is for castings.',
            'Ask the Aluminum Design Manual or EN 1999-1-1',
          );
    case 'soft-zone profile':
      return profileMetal(options, parentOf(section, options, thicknessMm));
    case 'own tests':
      return ownMetal(options);
    default:
      throw new TemperbookError('The kit knows no such code', {
        found: String(options.code),
        expected: 'EN 1999-1-1, Aluminum Design Manual, AASHTO LTS, soft-zone profile or own tests',
      });
  }
}

/** Parent strengths a profile stands on: the code's row of a wrought metal, the standard's of a casting. */
function parentOf(section: WeldedSection, options: ApartOptions, thicknessMm: number) {
  if (alloySeries(options.alloy) === 'casting') return castParent(section, options);
  const { alloy, temper, process } = options;
  const row = hazKnockDown({ alloy, temper, form: section.form ?? 'profile', process, thicknessMm });
  if (!row.supported) return row;
  return {
    supported: true as const,
    proofMPa: row.row.proofMPa,
    codeSoftMPa: row.proofHazMPa,
    known: row.row.known,
    source: row.source,
    because: row.because.slice(0, 1),
  };
}
