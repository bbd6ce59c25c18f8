export type * from './figure';
