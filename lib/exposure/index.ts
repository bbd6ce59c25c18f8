export type * from './pass';
