export { type AlloySeries, alloySeries } from './alloySeries';
export type { CodeAnswer } from './codeAnswer';
export type { CodeProcess } from './codeProcess';
export { type HazExtent, type HazWeld, hazExtent, hazExtentUs } from './hazExtent';
export { hazKnockDown, type KnockDown, type KnockDownWeld } from './hazKnockDown';
export { KNOCK_DOWN_TABLE, type KnockDownRow, type WroughtForm } from './hazKnockDownTable';
