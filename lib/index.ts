/** Temperbook: what heat did to an aluminium part, from a temperature log to a recorded decision. */
export * from './alloy';
export * from './figure';
export * from './history';
export * from './kinetics';
export * from './log';
export * from './quantity';
