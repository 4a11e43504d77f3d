/** What Plan and Drill share of a hole: its safety questions, their dangers, and the pipe of the campaign. */

export { checksOf, dangersOf, giveAnswer, openWords } from './answers.ts';
export { asTyped } from './as-typed.ts';
export { DangerPlate, type Hazard } from './danger-plate.tsx';
export { inventoryOf } from './inventory.ts';
export { SafetyList } from './safety-list.tsx';
