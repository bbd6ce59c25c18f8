import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { HowKnown } from '../../quantity';
import type { Filler } from '../codes/weldMetal';

/** What is known of a filler: its magnesium, and how its weld metal takes a heat treatment. */
export interface FillerFacts {
  readonly filler: Filler;
  readonly magnesiumWtPct: number;
  /** Does ageing alone, without solution treatment, strengthen it? */
  readonly toAgeing: 'yes' | 'no' | 'harmed' | 'nobody knows';
  /** Does solution treatment, quench and age? */
  readonly toFullTreatment: 'like the casting' | 'by dilution' | 'yes' | 'no' | 'nobody knows';
  /** Thickest metal whose weld picks up enough magnesium from the base, mm. */
  readonly dilutesUpToMm?: number;
  readonly because: string;
  readonly source: string;
  readonly known: HowKnown;
}

let own: ReadonlyMap<string, FillerFacts> | undefined;

/** The facts of data/models/fillers.json by the filler's number; nothing stands there that no source says. */
export function fillerFacts(): ReadonlyMap<string, FillerFacts> {
  own ??= new Map(
    (
      JSON.parse(readFileSync(path.join(__dirname, '../../../data/models/fillers.json'), 'utf8')) as {
        readonly fillers: readonly FillerFacts[];
      }
    ).fillers.map((one) => [one.filler, one]),
  );
  return own;
}
