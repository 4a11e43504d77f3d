/** Two computations of a campaign compared: which numbers changed, and which changed rows are under them. */
export { type Cause, type Comparison, type Computed, compareComputations } from './compare.ts';
export { type NumberChange, ROUNDING, type Side } from './number-changes.ts';
export type { Kind, Unit } from './quantities.ts';
export type { CellChange, RowChange } from './row-changes.ts';
export { type Effects, effectsOfChanges, type GroupEffect, type RateEffect } from './why.ts';
