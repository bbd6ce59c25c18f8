import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { type PartState, planRecovery, recoveryTicket, ticketHtml } from '../../lib/heattreat';
import { startChromium } from './chromiumPage';

let browser: Browser;
beforeAll(async () => {
  browser = await startChromium();
});

/** Pages of a PDF: its page objects stand there in plain text. */
const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

/** A mast foot of which nobody said anything: as many questions as there can be, at eight places. */
const UNSAID: PartState = {
  schedule: 'A356.0 T6 sand casting',
  wroughtSchedule: '6061 T6 sheet and plate',
  places: [
    ...Array.from({ length: 5 }, (_, k) => ({
      name: `TC${k + 1} hinge block ${12 + 8 * k} mm from the toe`,
      material: 'casting' as const,
      alloy: 'A356.0',
      temper: 'T6',
      peakC: null,
    })),
    ...[1, 2].map((k) => ({
      name: `TC${k + 5} tube ${20 * k} mm from the toe`,
      material: 'wrought' as const,
      alloy: '6061',
      temper: 'T6',
      peakC: 360,
    })),
    { name: 'the weld', material: 'weld metal', peakC: null },
  ],
  filler: '4043',
  solutionTreatments: null,
  thinnestWallMm: null,
  longestMm: null,
  holdsPressure: null,
  fittings: { threads: null, coating: null, inserts: null, machined: null },
};
const TOLD: PartState = {
  ...UNSAID,
  places: UNSAID.places.slice(0, 1).map((place) => ({ ...place, peakC: 380, thicknessMm: 25 })),
  solutionTreatments: 1,
  thinnestWallMm: 8,
  longestMm: 200,
  holdsPressure: false,
  fittings: { threads: false, coating: false, inserts: false, machined: false },
};

describe('the ticket for the heat treater', () => {
  it.each([
    ['full treatment', 'A4'],
    ['full treatment', 'Letter'],
    ['age again', 'A4'],
    ['age again', 'Letter'],
  ] as const)('of a %s prints on one sheet of %s, whatever is to be settled first', async (kind, format) => {
    for (const state of [TOLD, UNSAID]) {
      const plan = planRecovery(state);
      const way = plan.ways.find((one) => one.kind === kind)!;
      const ticket = recoveryTicket(plan, way, {
        Job: 'J-1042',
        Part: 'Radio mast foot, hinge block welded to tube',
        Number: 'HB-07',
        Serial: '07',
      });
      const page = await browser.newPage();
      await page.setContent(ticketHtml(ticket));
      const pdf = await page.pdf({ format, preferCSSPageSize: true });
      expect(pagesOf(pdf)).toBe(1);
      // Nothing was cut away for it: every line is on the sheet.
      const text = await page.evaluate(() => document.body.textContent);
      for (const line of ticket.sections.flatMap(({ lines }) => lines)) expect(text).toContain(line);
      await page.close();
    }
  });
});
