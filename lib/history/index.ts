export { join } from './join';
export { resample } from './resample';
export { slice } from './slice';
export { type Stretch, stretches } from './stretches';
export {
  type Coverage,
  checkHistory,
  coverage,
  isothermal,
  type ThermalHistory,
  tempAt,
  thermalHistory,
} from './thermalHistory';
export { thinForPlot } from './thinForPlot';
