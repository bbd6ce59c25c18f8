import { mapFigure } from '../../lib/figure';
import { planRecovery, recoveryTicket, ticketHtml } from '../../lib/heattreat';
import { practicesFor } from '../../lib/kinetics';
import { stopReading, strengthMap } from '../../lib/planning';
import {
  compareHtml,
  compareWelds,
  readShelf,
  recordHtml,
  shelfHtml,
  stopCardHtml,
  wallChartHtml,
  weldOfVerdict,
} from '../../lib/record';
import { sampleVerdict } from '../figure/samples';
import { edgeWeld } from '../planning/plans/edgeWeld';
import { sampleRecord } from '../record/samples';
import { newFolder, put } from '../record/shelf/folder';

/** Two welds of the same verdict side by side. */
export function compared(first: string, second: string) {
  const { places } = weldOfVerdict(first, sampleVerdict());
  return compareWelds([first, second].map((name) => ({ name, places: places.slice(0, 2) })));
}

/** A shelf of two parts, one of which was made with a card that has changed. */
export function shelfPage() {
  const records = newFolder();
  put(records, { part: 'HB-1', date: '2031-05-14' });
  put(records, { part: 'HB-2', date: '2031-06-14' });
  const shelf = readShelf(records);
  const since = new Map([[shelf.parts[0]!.newest.file, { changed: ['card A356.0'], today: 'now lost' }]]);
  return { title: 'Shelf of parts', shelf, parts: shelf.parts, since };
}

/** Every sheet that the kit writes, by its name. */
export const SHEETS: Readonly<Record<string, () => string>> = {
  record: () => recordHtml(sampleRecord()),
  shelf: () => shelfHtml(shelfPage()),
  compare: () => compareHtml(compared('HB-09, as planned', 'HB-10')),
  'wall chart': () =>
    wallChartHtml({
      title: 'What heat does to 356.0-T6',
      figure: mapFigure(
        strengthMap({ alloy: '356.0', temper: 'T6', tempC: [80, 600], rows: 21, columns: 13 }),
        practicesFor('356.0'),
      ),
      notes: ['Read it by the green line. Below it even the worst case keeps what is needed.'],
    }),
  'stop card': () =>
    stopCardHtml(
      stopReading(
        edgeWeld('A356.0', {
          probes: [{ name: 'TC1 block, 28 mm from the toe', xMm: 60, yMm: 32 }],
          until: { coolForS: 200 },
        }),
        { workers: 0, attachment: 'peened hole', limitC: 227, probe: 'TC1 block, 28 mm from the toe' },
      ),
    ),
  ticket: () => {
    const plan = planRecovery({
      schedule: 'A356.0 T6 sand casting',
      places: [
        {
          name: 'TC1 block 12 mm',
          material: 'casting',
          alloy: 'A356.0',
          temper: 'T6',
          peakC: 380,
          thicknessMm: 8,
        },
        { name: 'the weld', material: 'weld metal', peakC: 640, thicknessMm: 5 },
      ],
      filler: '4043',
      solutionTreatments: 1,
      thinnestWallMm: 3,
      longestMm: 180,
      holdsPressure: false,
      fittings: { threads: true, coating: false, inserts: false, machined: true },
    });
    const way = plan.ways.find(({ kind }) => kind === 'full treatment')!;
    return ticketHtml(recoveryTicket(plan, way, { part: 'Hinge block, foot of the folding mast' }));
  },
};
