export type * from './verdict';
