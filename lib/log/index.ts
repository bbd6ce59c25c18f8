export type * from './thermalLog';
