import type { ChartCheck, RecoveryPlan, RoutePlan, TemperMade } from '../heattreat';
import { formatChance, formatDuration, formatKept, type Judged } from '../quantity';
import type { TableRow } from './table';

/** One row for each requirement of a schedule, numbered as on the figure: the answer, and what it rests on. */
export function requirementRows({ requirements }: ChartCheck): TableRow[] {
  return requirements.map(({ name, verdict, found, wanted, missing }, k) => ({
    No: k + 1,
    Requirement: name,
    Answer: verdict,
    'Found, or what is missing': missing ?? (verdict === 'not met' ? `${found}; wanted: ${wanted}` : found),
  }));
}

/** The same with what was wanted, what was found and when it was decided. */
export function requirementDetailRows({ requirements }: ChartCheck): TableRow[] {
  return requirements.map(({ name, verdict, found, wanted, atS, missing }, k) => ({
    No: k + 1,
    Requirement: name,
    Answer: verdict,
    Found: found,
    Wanted: wanted,
    At: atS === null ? '' : formatDuration(atS),
    Missing: missing ?? '',
  }));
}

/** One row for each sensor: what it sits in and why it is taken for that. */
export function chartSensorRows({ sensors }: ChartCheck): TableRow[] {
  return sensors.map(({ name, role, because }) => ({ Sensor: name, 'Sits in': role, Because: because }));
}

/** One row for each stage of the chart. */
export function stageRows({ stages }: ChartCheck): TableRow[] {
  return stages.map(({ name, fromS, toS, worstSensor }) => ({
    Stage: name,
    From: formatDuration(fromS),
    For: formatDuration(toS - fromS),
    'Worst sensor': worstSensor ?? '',
  }));
}

/** One row for each load sensor: the yield the ageing makes there, and which temper that is. */
export function temperMadeRows({ sensors }: TemperMade, temper: string): TableRow[] {
  return sensors.map(({ sensor, yieldMPa: { nominal, low, high }, word, because }) => ({
    Sensor: sensor,
    Yield: `${nominal.toFixed(0)} MPa (${low.toFixed(0)}–${high.toFixed(0)})`,
    Temper: word === 'as the schedule' ? temper : word === 'cannot tell' ? word : `${word} ${temper}`,
    Because: because,
  }));
}

/** What the chart shows of the quench: its rate, the wait that followed, and what it left to age. */
export function quenchRows({ quench, quenchToAgeS, quenchStrength }: ChartCheck): TableRow[] {
  const row = (what: string, found: string, because = ''): TableRow => ({
    Quench: what,
    Found: found,
    Because: because,
  });
  const band = ({ low, high }: Pick<Judged, 'low' | 'high'>, digits: number) =>
    `${low.toFixed(digits)} to ${high.toFixed(digits)}`;
  return [
    ...(quench ? [row('Slowest load sensor, 400 to 200 °C', `${band(quench.rateKPerS, 0)} °C/s`)] : []),
    ...(quenchToAgeS ? [row('From quench to ageing', formatDuration(quenchToAgeS.nominal))] : []),
    ...leftToAge(quenchStrength, row, band),
  ];
}

function leftToAge(
  strength: ChartCheck['quenchStrength'],
  row: (what: string, found: string, because?: string) => TableRow,
  band: (value: Pick<Judged, 'low' | 'high'>, digits: number) => string,
): TableRow[] {
  if (strength?.kind === 'loss against the fastest measured')
    return [
      row(
        'Costs, against the fastest quench measured',
        `${band(strength.lossMPa, 0)} MPa of yield`,
        strength.lossMPa.because.join(' '),
      ),
    ];
  if (strength?.kind === 'share of an ideal quench')
    return strength.sensors.map(({ sensor, fraction }) =>
      row(`${sensor}: share of what an ideal quench gives`, band(fraction, 2)),
    );
  return [row('What it left to age', 'cannot tell', strength?.because ?? 'the chart does not show it')];
}

/** One row for each way to save a part: whether it may be gone, and what of its yield each place then has. */
export function recoveryPlanRows({ ways }: RecoveryPlan): TableRow[] {
  return ways.map(({ name, permission, strength, timeS, objections }) => ({
    'Way to go on': name,
    'May it be done': permission,
    ...Object.fromEntries(
      strength.flatMap(({ place, after }) =>
        after
          ? [
              [
                place,
                `${formatKept(after.yieldKeptFraction)}${after.chanceKept === null ? ', heat may be missing' : `, enough: ${formatChance(after.chanceKept)}`}`,
              ],
            ]
          : [],
      ),
    ),
    Takes: timeS === 0 ? '' : formatDuration(timeS),
    'Against it': objections.length === 0 ? '' : `${objections.length} (below)`,
  }));
}

/** One row for everything that stands against a way, with its source. */
export function objectionRows({ ways }: RecoveryPlan): TableRow[] {
  return ways.flatMap(({ name, objections }) =>
    objections.map(({ weight, what, source }) => ({
      'Way to go on': name,
      Weight: weight,
      What: what,
      Source: source,
    })),
  );
}

/** One row for each order of buying, welding and treating: the yield it leaves at each metal, its days, what speaks against it. */
export function routeRows({ routes }: RoutePlan): TableRow[] {
  return routes.map(({ name, forbidden, strength, days, against }) => ({
    Route: name,
    'May it be done': forbidden ? 'forbidden' : 'possible',
    ...Object.fromEntries(
      strength.flatMap(({ place, yieldMPa, because }) =>
        place === 'weld metal'
          ? []
          : [
              [
                `${place}, yield`,
                yieldMPa
                  ? `${yieldMPa.nominal.toFixed(0)} MPa (${yieldMPa.low.toFixed(0)}–${yieldMPa.high.toFixed(0)})`
                  : because,
              ],
            ],
      ),
    ),
    Days: days,
    'Speaks against it': against.map(({ what }) => what).join('. '),
  }));
}
