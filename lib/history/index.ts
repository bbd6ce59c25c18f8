export {
  type Coverage,
  checkHistory,
  coverage,
  isothermal,
  type ThermalHistory,
  tempAt,
  thermalHistory,
} from './thermalHistory';
