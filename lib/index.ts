/** Temperbook: what heat did to an aluminium part, from a temperature log to a recorded decision. */
export * from './alloy';
export * from './decision';
export * from './exposure';
export * from './figure';
export * from './heatflow';
export * from './history';
export * from './kinetics';
export * from './log';
export * from './notebook';
export * from './quantity';
export * from './record';
export * from './section';
export * from './statistics';
export * from './thermocouple';
