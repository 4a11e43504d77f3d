/**
 * Readings that have one place in the order of a hole, loop, gauge or day, or that two devices wrote without knowing of
 * each other: the orders they may have had, whether any number differs between them, and the moves that settle it.
 */
export { clashesAmong, clashesIn, type OrderClash, type OrderSide } from './clashes.ts';
export { placeNextTo, placesBetween } from './places.ts';
export { type Placed, readingsOf, type Series, seriesOf } from './series.ts';
