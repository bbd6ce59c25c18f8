export type * from './alloyCard';
