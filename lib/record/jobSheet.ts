import { TemperbookError } from '../quantity';

/** One line of the job sheet: what it is called in print, and what it is for. */
interface JobField {
  readonly label: string;
  readonly group: JobGroup;
}

/** Headings of a job sheet. */
export type JobGroup = 'Job' | 'Part' | 'Material' | 'Welding' | 'Measuring';

/**
 * The lines a job sheet may have, in the order they are printed. Chosen from what ISO 3834-2, EN ISO 15614-2
 * and AMS 2770 records ask for and a two-person shop can answer; none is required.
 */
export const JOB_FIELDS = {
  job: { label: 'Job', group: 'Job' },
  date: { label: 'Date of the work', group: 'Job' },
  customer: { label: 'Customer', group: 'Job' },
  specification: { label: 'Specification and edition', group: 'Job' },
  part: { label: 'Part', group: 'Part' },
  partNumber: { label: 'Part number', group: 'Part' },
  drawing: { label: 'Drawing and revision', group: 'Part' },
  serial: { label: 'Serial or lot', group: 'Part' },
  quantity: { label: 'Quantity', group: 'Part' },
  thicknessMm: { label: 'Governing thickness, mm', group: 'Part' },
  massKg: { label: 'Mass, kg', group: 'Part' },
  productForm: { label: 'Product form', group: 'Material' },
  temperAsReceived: { label: 'Temper as received', group: 'Material' },
  heatNumber: { label: 'Heat or cast number', group: 'Material' },
  certificate: { label: 'Material certificate', group: 'Material' },
  priorSolutionTreatments: { label: 'Earlier solution treatments', group: 'Material' },
  thinnestWallMm: { label: 'Thinnest wall, mm', group: 'Part' },
  longestMm: { label: 'Longest dimension, mm', group: 'Part' },
  holdsPressure: { label: 'Holds pressure', group: 'Part' },
  threads: { label: 'Has threads', group: 'Part' },
  coating: { label: 'Has plating, anodising, paint or powder', group: 'Part' },
  inserts: { label: 'Has bushes, inserts, bearings, seals or adhesive', group: 'Part' },
  machined: { label: 'Has faces or bores machined to size', group: 'Part' },
  uniformityK: { label: 'Uniformity of the furnace, ± K', group: 'Material' },
  joinedTo: { label: 'Joined to', group: 'Material' },
  process: { label: 'Process', group: 'Welding' },
  powerSource: { label: 'Power source', group: 'Welding' },
  filler: { label: 'Filler', group: 'Welding' },
  fillerBatch: { label: 'Filler batch', group: 'Welding' },
  shieldingGas: { label: 'Shielding gas', group: 'Welding' },
  joint: { label: 'Joint and position', group: 'Welding' },
  passSequence: { label: 'Sequence of passes', group: 'Welding' },
  currentA: { label: 'Current, A', group: 'Welding' },
  voltageV: { label: 'Voltage, V', group: 'Welding' },
  travelMmPerS: { label: 'Travel, mm/s', group: 'Welding' },
  preheatC: { label: 'Preheat, °C', group: 'Welding' },
  interpassMaxC: { label: 'Highest interpass temperature, °C', group: 'Welding' },
  postWeldTreatment: { label: 'Treatment after welding', group: 'Welding' },
  operator: { label: 'Operator', group: 'Welding' },
  probes: { label: 'Where the probes sat', group: 'Measuring' },
  attachment: { label: 'How they were attached', group: 'Measuring' },
  sensor: { label: 'Sensor type and class', group: 'Measuring' },
  sensorSerials: { label: 'Sensor serials', group: 'Measuring' },
  logger: { label: 'Logger', group: 'Measuring' },
  calibration: { label: 'Calibration', group: 'Measuring' },
  remarks: { label: 'Remarks', group: 'Job' },
} as const satisfies Readonly<Record<string, JobField>>;

/** Names of the lines of `JOB_FIELDS`. */
export type JobFieldName = keyof typeof JOB_FIELDS;

/** What the user says about the job: any of `JOB_FIELDS`, as text or number. */
export type JobSheet = { readonly [Name in JobFieldName]?: string | number };

/**
 * Checks a job sheet that came from a command line or a file.
 * @throws TemperbookError naming a field that is unknown or holds neither text nor a finite number.
 */
export function jobSheet(given: Readonly<Record<string, unknown>>): JobSheet {
  const sheet: Partial<Record<JobFieldName, string | number>> = {};
  for (const [name, value] of Object.entries(given)) {
    if (!isJobField(name))
      throw new TemperbookError('This line is not on the job sheet', {
        column: name,
        expected: `one of ${Object.keys(JOB_FIELDS).join(', ')}`,
        remedy: 'Put anything else into remarks',
      });
    if (value === undefined || value === '') continue;
    if (typeof value !== 'string' && !(typeof value === 'number' && Number.isFinite(value)))
      throw new TemperbookError('A line of the job sheet must be text or a number', {
        column: name,
        found: String(value),
      });
    sheet[name] = value;
  }
  return sheet;
}

const isJobField = (name: string): name is JobFieldName => Object.hasOwn(JOB_FIELDS, name);
