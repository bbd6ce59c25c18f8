import { judged } from '../../lib/quantity';
import { buildRecord, type DecisionRecord, type RecordParts } from '../../lib/record';
import { sampleLog, sampleVerdict } from '../figure/samples';

/** All parts of a filled-in record of the invented job. */
export function sampleParts(): RecordParts {
  const log = sampleLog();
  return {
    log,
    verdict: sampleVerdict(log),
    job: {
      job: 'M-0412',
      date: '2031-05-14',
      part: 'Hinge block, foot of the folding mast',
      drawing: 'FM-20-113 rev. C',
      serial: '07',
      thicknessMm: 25,
      temperAsReceived: 'A356.0-T6 casting, certificate on file',
      joinedTo: '6061-T6 tube, 60 × 3 mm',
      process: 'AC TIG',
      filler: '4043, 2.4 mm',
      shieldingGas: 'Argon, 12 l/min',
      currentA: '140 to 165',
      operator: 'bench 2',
      probes: 'TC1 6 mm, TC2 12 mm, TC3 18 mm from the toe, TC4 on the far boss',
      attachment: 'peened into 1 mm holes',
    },
    options: [
      {
        name: 'leave as it is',
        yieldKeptFraction: judged(0.91, [0.847, 0.95], '', ['as judged']),
        verdict: 'uncertain',
        timeS: 0,
        remark: 'Needs hardness beside TC1.',
      },
      {
        name: 're-age 4 h at 155 °C',
        yieldKeptFraction: judged(0.92, [0.85, 0.97], '', ['dissolved part comes back']),
        verdict: 'uncertain',
        timeS: 14_400,
        remark: 'Ageing brings back what was dissolved, not what was over-aged: little gained.',
      },
      {
        name: 'full re-heat-treatment',
        yieldKeptFraction: judged(1, [0.94, 1.04], '', ['new T6']),
        verdict: 'kept',
        timeS: 72_000,
        remark: 'Distortion of the tube joint must be held.',
      },
    ],
    decision: {
      disposition: 'accept with condition',
      condition: 'Hardness 5 mm from the toe at TC1 of 75 HB or more, measured before fitting.',
      reason: 'The likely loss is within the allowance and a hardness reading settles the rest.',
    },
    signOff: [{ role: 'Decided by' }, { role: 'Checked by' }],
  };
}

export const sampleRecord = (over: Partial<RecordParts> = {}): DecisionRecord =>
  buildRecord({ ...sampleParts(), ...over });
