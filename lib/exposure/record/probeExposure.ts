import { formatTempSpan } from '../../quantity';
import type { Doubt, Exposure } from '../exposure';
import { peak } from '../peak';
import { betweenDoubt, betweenReadings, type IntervalFindings, withRises } from './betweenReadings';
import { checkDoubts } from './checkDoubts';
import { fixingDoubt, fixingSentence } from './fixingDoubt';
import { gapDoubt, gapDoubts } from './gapDoubts';
import { type EndFindings, logEnds, withTail } from './logEnds';
import { notTheMetal } from './notTheMetal';
import { type ProbeRecord, USUAL_WIRE } from './probe';
import { wireDoubts, wireToleranceC } from './wireDoubts';

/**
 * What the metal under a probe saw: its record, condensed where it is long (`condense`), its gaps and ends as far as
 * they are bounded, and what wire, fixing and interval leave open.
 */
export function probeExposure(record: ProbeRecord): Exposure {
  const { probe } = record;
  const { ambientC, thermocouple: wire = USUAL_WIRE, attachment = 'not stated' } = probe;
  const interval = probe.isPlan ? NOTHING_MISSED : betweenReadings(record);
  const ends = probe.isPlan ? WHOLE : logEnds(record);
  const gaps = gapDoubts({ ...record, history: withRises(record.history, interval.rises) });
  const tailed = ends.tail ? withTail(gaps.history, ends.tail, ambientC) : undefined;
  const history = tailed?.history ?? gaps.history;
  const padded = new Float64Array(history.timeS.length);
  padded.set(gaps.worstK);
  const doubts: Doubt[] = [
    ...wireDoubts(history, wire),
    fixingDoubt(history, attachment, ambientC),
    ...(probe.check ? checkDoubts(history, probe.check, ambientC) : []),
    ...betweenDoubt(history, interval.rises),
    ...gapDoubt({ ...gaps, worstK: padded }),
    ...(tailed ? [tailed.doubt] : []),
  ];
  const topC = peak(record.history).tempC;
  return {
    history,
    doubts,
    blind: [...notTheMetal(record), ...ends.blind, ...interval.blind, ...gaps.blind],
    because: [
      `The wire is good to ±${formatTempSpan(wireToleranceC(wire, topC), 1)} at the peak (type ${wire.type}, ${wire.standard} class ${wire.class}).`,
      fixingSentence(attachment, topC, ambientC),
      ...(probe.check?.because.map((found) => `Checked before the weld, ${found}`) ?? []),
      ...interval.because,
      ...gaps.because,
      ...ends.because,
    ],
  };
}

const NOTHING_MISSED: IntervalFindings = { rises: [], blind: [], because: [] };
const WHOLE: EndFindings = { blind: [], because: [] };
