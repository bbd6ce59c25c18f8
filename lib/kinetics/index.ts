export type * from './temperModel';
