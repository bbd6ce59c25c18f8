import { readFileSync } from 'node:fs';
import { dataCheck, refuseProblems, TemperbookError } from '../../quantity';
import type { SectionLoad } from '../resistance/sectionLoad';
import type { SizeOptions } from '../sizing/sizeSection';
import type { WeldedSection } from '../weldedSection';
import { readUnits } from './readUnits';
import { SIZE_JOB_SCHEMA } from './sizeJobSchema';

/** A section, its loads and what it is sized to. */
export interface SizeJob {
  readonly name: string;
  readonly section: WeldedSection;
  readonly loads: readonly SectionLoad[];
  readonly options: SizeOptions;
}

const check = dataCheck(SIZE_JOB_SCHEMA, 'the file');

/**
 * Reads what is to be sized from plain data or a JSON file: `{ name, section, metal, loads, factor, on, … }`, lengths,
 * forces, moments and stresses as texts with their unit ("1/8 in", "2 kN", "250 N m").
 * @throws TemperbookError that lists all that is wrong with it at once.
 */
export function readSizeJob(pathOrData: string | object): SizeJob {
  const file = typeof pathOrData === 'string' ? pathOrData : undefined;
  const data = readUnits(file === undefined ? pathOrData : parse(file)) as Record<string, unknown>;
  refuseProblems(file === undefined ? 'What is to be sized' : 'The file', check(data), { file });
  const { name, section, metal, loads, ...rest } = data as unknown as {
    name?: string;
    section: WeldedSection;
    metal: Omit<SizeOptions, 'factor' | 'on'>;
    loads: readonly SectionLoad[];
    factor: number;
    on: SizeOptions['on'];
  };
  return {
    name: name ?? 'section',
    section: { ...section, welds: section.welds ?? [] },
    loads,
    options: { ...metal, ...rest },
  };
}

function parse(file: string): unknown {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new TemperbookError('The file cannot be read', { file, found: (error as Error).message });
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new TemperbookError('The file is no JSON', { file, found: (error as Error).message });
  }
}
