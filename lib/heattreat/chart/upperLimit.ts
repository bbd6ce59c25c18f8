import { formatTemp } from '../../quantity';
import type { HoldStage } from '../schedule/schedule';
import type { HoldWindow } from './chartStages';
import type { HottestReading } from './hottestReading';
import type { Requirement } from './requirement';
import type { HoldCount } from './timeInBand';

/** No load sensor above the band of a hold. */
export function upperLimit(
  stage: 'solution' | 'age',
  name: string,
  { highC }: HoldStage,
  window: HoldWindow,
  { hottest: anywhere, unrecordedS }: HoldCount,
  held: HottestReading | undefined,
): Requirement {
  const hottest = held ?? anywhere;
  const over = hottest.tempC > highC;
  const hidden = unrecordedS > 0 || window.cutAtStart || window.cutAtEnd;
  return {
    name: `${name}: upper limit`,
    stage,
    verdict: over ? 'not met' : hidden ? 'cannot tell' : 'met',
    found: `hottest load sensor ${formatTemp(hottest.tempC, 1)}, ${hottest.sensor}`,
    wanted: `no load sensor above ${formatTemp(highC)}`,
    atS: hottest.atS,
    sensor: hottest.sensor,
    ...(over || !hidden ? {} : { missing: 'all of this stage on the chart: part of it was not recorded' }),
  };
}

/** Air hotter than the band heats thin metal past it before a load sensor in thick metal shows it. */
export function furnaceSensors(
  stage: 'solution' | 'age',
  name: string,
  { highC }: HoldStage,
  hottest: HottestReading | undefined,
  isWhole: boolean,
): Requirement | undefined {
  if (!hottest) return undefined;
  const over = hottest.tempC > highC;
  return {
    name: `${name}: furnace no hotter than the band`,
    stage,
    verdict: over ? 'not met' : isWhole ? 'met' : 'cannot tell',
    found: `hottest furnace sensor ${formatTemp(hottest.tempC, 1)}, ${hottest.sensor}`,
    wanted: `no furnace sensor above ${formatTemp(highC)}`,
    atS: hottest.atS,
    sensor: hottest.sensor,
    ...(over || isWhole
      ? {}
      : { missing: 'every furnace sensor throughout this stage: part of it was not recorded' }),
  };
}
