import { type ScheduleStep, scheduleHistory, type ThermalHistory } from '../../history';
import { loadSchedule } from './loadSchedule';
import type { HoldStage, Schedule } from './schedule';
import { leastSeconds } from './soakHours';

/** Which corner of its bands a schedule is run at. */
export type BandCorner = 'least heat' | 'as set' | 'most heat';

/** How a planned treatment is drawn as a history. */
export interface ScheduledOptions {
  readonly corner?: BandCorner;
  /** Leaves solution and quench out: for models that start from freshly quenched metal. */
  readonly fromQuench?: boolean;
  /** Time at room temperature between quench and ageing, h; default the least the schedule asks for. */
  readonly waitH?: number;
  readonly roomC?: number;
  /** Heating to each hold, K/s; default 0.05 (180 K/h, an hour to a solution temperature takes three). */
  readonly heatingKPerS?: number;
  /** Cooling in the quench, K/s; default 50. */
  readonly quenchKPerS?: number;
  /** Where the soak goes by thickness, mm; default 12.7. */
  readonly thicknessMm?: number;
}

/** Air cooling after the last hold, K/s. */
const AIR_COOLING_K_PER_S = 0.05;
const DEFAULTS = { roomC: 20, heatingKPerS: 0.05, quenchKPerS: 50, thicknessMm: 12.7 };

/**
 * A schedule as the thermal history of metal that follows it: solution, quench, the wait at room temperature and
 * every step of the ageing, each at its set point and in the middle of its times, or at the corner of its bands
 * that gives least or most heat. T5 and T51 have no solution; an interrupted age is a step at a low temperature.
 * Where a schedule gives no upper time, most heat is its least time.
 * @throws TemperbookError as `loadSchedule` and `scheduleHistory`.
 */
export function scheduledHistory(
  schedule: string | Schedule,
  options: ScheduledOptions = {},
): ThermalHistory {
  const { solution, wait, ages } = loadSchedule(schedule);
  const { roomC, heatingKPerS, quenchKPerS, thicknessMm } = { ...DEFAULTS, ...options };
  const corner = options.corner ?? 'as set';
  const hold = (stage: HoldStage): ScheduleStep => ({
    tempC: cornerC(stage, corner),
    holdS: cornerS(stage, corner, thicknessMm),
    rateKPerS: heatingKPerS,
  });
  const waitS = 3600 * (options.waitH ?? wait?.leastH ?? 0);
  const startC = options.fromQuench || !solution ? roomC : 20;
  return scheduleHistory(
    [
      ...(solution && !options.fromQuench
        ? [hold(solution), { tempC: roomC, holdS: 0, rateKPerS: quenchKPerS }]
        : []),
      { tempC: roomC, holdS: Math.max(1, waitS) },
      ...ages.map(hold),
      ...(ages.length > 0 ? [{ tempC: roomC, holdS: 0, rateKPerS: AIR_COOLING_K_PER_S }] : []),
    ],
    startC,
  );
}

function cornerC({ lowC, setC, highC }: HoldStage, corner: BandCorner): number {
  return corner === 'as set' ? setC : corner === 'least heat' ? lowC : highC;
}

function cornerS(stage: HoldStage, corner: BandCorner, thicknessMm: number): number {
  const least = leastSeconds(stage, thicknessMm).high;
  const most = stage.mostH === null ? least : stage.mostH * 3600;
  return corner === 'as set' ? (least + most) / 2 : corner === 'least heat' ? least : most;
}
