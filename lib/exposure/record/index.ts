export { betweenDoubt, risesOf, withRises } from './betweenReadings';
export { fixingDoubt } from './fixingDoubt';
export { type Probe, type ProbeRecord, USUAL_WIRE } from './probe';
export { probeExposure } from './probeExposure';
export { wireDoubts, wireToleranceC } from './wireDoubts';
export { withFixing } from './withFixing';
