export { bridgeGaps, type GapRule } from './bridgeGaps';
export { capAt } from './capAt';
export { coolingTimeConstant, type PartCooling } from './cooling';
export { insertWait, type Wait } from './insertWait';
export { join } from './join';
export { repeatPass } from './repeatPass';
export { resample } from './resample';
export { type ScheduleStep, scheduleHistory } from './scheduleHistory';
export { shiftTemperature } from './shiftTemperature';
export { cut, slice } from './slice';
export { type Stretch, stretches } from './stretches';
export {
  type Coverage,
  checkHistory,
  coverage,
  isothermal,
  lastAtOrBefore,
  type ThermalHistory,
  tempAt,
  thermalHistory,
} from './thermalHistory';
export { thinForPlot } from './thinForPlot';
export { withSamplesAt } from './withSamplesAt';
