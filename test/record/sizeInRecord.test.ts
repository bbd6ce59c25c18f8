import { expect, it } from 'vitest';
import mastFoot from '../../data/demo/mast-foot-size.json';
import { factorFigure, verdictFigure } from '../../lib/figure';
import { buildRecord, recordHtml } from '../../lib/record';
import { factorCurve, readSizeJob, sizeSection, sizeWords } from '../../lib/section';
import { sampleParts } from './samples';

it('a record holds the words of a size as the caption of its picture', () => {
  const job = readSizeJob(mastFoot);
  const size = sizeSection(job.section, job.loads, job.options);
  if (!size.supported) throw new Error(size.why);
  const figure = factorFigure(factorCurve(job.section, job.loads, job.options, { count: 20 }));
  const parts = sampleParts();
  const record = buildRecord({
    ...parts,
    figures: [verdictFigure(parts.log!, parts.verdict), { caption: sizeWords(size).join(' '), figure }],
  });
  expect(record.figures[1]!.caption).toContain('A factor of 4 on yield needs at least');
  expect(recordHtml(record)).toContain('A factor of 4 on yield needs at least');
});
