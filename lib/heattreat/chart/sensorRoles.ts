import type { ThermalHistory } from '../../history';
import type { LogChannel } from '../../log';
import { TemperbookError } from '../../quantity';

/** What a sensor of a furnace chart sits in. */
export type SensorRole = 'load' | 'air' | 'quench water' | 'not told' | 'left out';

/** A sensor of the chart, and why it is taken for what it is. */
export interface ChartSensor {
  readonly name: string;
  readonly role: SensorRole;
  readonly because: string;
  readonly history: ThermalHistory;
}

const AIR =
  /\b(air|atmosphere|zone|control(ler)?|furnace|oven|chamber|over-?temp(erature)?|recirculation)\b/i;
const WATER = /\b(quench|water|tank|bath)\b/i;
const LOAD =
  /\b(load|parts?|castings?|work(piece)?|piece|block|coupon|specimen|billet|bar|tube|boss|lip|hub|core|basket)(?![a-z])/i;

/** A sensor that falls from 400 to 200 °C at this average was quenched with the load, K/s. No furnace's air does. */
const QUENCHED_K_PER_S = 1;
/** A sensor this far behind the first one on the way up sits in metal, s. */
const LAG_S = 900;

/** What is told of sensors, by their names. */
export type ToldSensors = Readonly<Record<string, Exclude<SensorRole, 'not told'>>>;

/** @throws TemperbookError where a sensor is told of that there is not, or it sits in what there is not. */
export function checkTold(told: ToldSensors, names: readonly string[]): void {
  for (const [name, role] of Object.entries(told)) {
    if (!names.includes(name))
      throw new TemperbookError('The chart has no sensor of this name', {
        found: `"${name}"`,
        expected: `one of ${names.map((one) => `"${one}"`).join(', ')}`,
      });
    if (!['load', 'air', 'quench water', 'left out'].includes(role))
      throw new TemperbookError(`What the sensor "${name}" sits in is not usable`, {
        found: JSON.stringify(role),
        expected: 'load, air, quench water or left out',
      });
  }
}

/**
 * Tells the sensors of a chart apart: what you say, then what its name says, then what its trace shows. A sensor
 * that goes into the quench sits on the load, and so does one that comes up a quarter of an hour after another
 * one. A sensor of which nothing tells is no load sensor.
 */
export function sensorRoles(channels: readonly LogChannel[], told: ToldSensors = {}): ChartSensor[] {
  return channels.map(({ name, history }) => {
    const [role, because] = told[name]
      ? ([told[name], 'as told'] as const)
      : (byName(name) ?? byTrace(history, channels));
    return { name, role, because, history };
  });
}

function byName(name: string): readonly [SensorRole, string] | undefined {
  // Underscores and digits join words in column names: "load_1", "TC3-part".
  const words = name.replace(/[_\d]+/g, ' ');
  if (/\b(air|zone|control)\b/i.test(words)) return ['air', 'by its name'];
  if (LOAD.test(words)) return ['load', 'by its name'];
  if (WATER.test(words)) return ['quench water', 'by its name'];
  if (AIR.test(words)) return ['air', 'by its name'];
  return undefined;
}

function byTrace(history: ThermalHistory, channels: readonly LogChannel[]): readonly [SensorRole, string] {
  if (wentIntoQuench(history)) return ['load', 'it went into the quench'];
  const lagS = upS(history) - Math.min(...channels.map((channel) => upS(channel.history)));
  if (lagS > LAG_S && Number.isFinite(lagS))
    return ['load', 'it came up a quarter of an hour after the first'];
  return ['not told', 'neither its name nor its trace tells what it sits in'];
}

function wentIntoQuench({ timeS, tempC, gapAfter }: ThermalHistory): boolean {
  let hotS = Number.NEGATIVE_INFINITY;
  const gaps = new Set(gapAfter);
  for (let i = 0; i < timeS.length; i++) {
    if (tempC[i]! >= 400) hotS = timeS[i]!;
    else if (tempC[i]! <= 200 && timeS[i]! - hotS < 200 / QUENCHED_K_PER_S) return true;
    if (gaps.size > 0 && gaps.has(i)) hotS = Number.NEGATIVE_INFINITY;
  }
  return false;
}

/** When nine tenths of the way from the first reading to the hottest are done, s. */
function upS({ timeS, tempC }: ThermalHistory): number {
  let hottest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < tempC.length; i++) if (tempC[i]! > hottest) hottest = tempC[i]!;
  const level = tempC[0]! + 0.9 * (hottest - tempC[0]!);
  for (let i = 0; i < tempC.length; i++) if (tempC[i]! >= level) return timeS[i]!;
  return Number.POSITIVE_INFINITY;
}
