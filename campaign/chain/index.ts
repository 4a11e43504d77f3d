/**
 * From the plan to the archive: samples that are planned, and where each sample and core is, what is awaited of it and
 * what it cost. Everything is folded from the rows in force; days are given, no clock is read.
 */
export { type CodeFound, thingOfCode } from './code.ts';
export { type Basis, type Core, coreOfCells, coresOf } from './cores.ts';
export { costsWords } from './costs.ts';
export { type Away, type Custody, type CustodyState, custodyOf, overdueDays } from './custody.ts';
export { custodyWords, placeWords } from './custody-words.ts';
export { dayOf } from './entries.ts';
export { type PlannedSample, plannedSamples, plannedWhere } from './planned.ts';
export { chainProblems } from './problems.ts';
export { type Cut, cutOf, cutReach, cutWords, takenCells } from './taking.ts';
export { type Thing, thingCells, thingKey, thingName } from './thing.ts';
