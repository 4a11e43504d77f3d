/** What stages share of a hole: its safety questions and their dangers, its rows as they are typed, its top. */

export { asTyped } from './as-typed.ts';
export { CallInPanel, CallInPlate, useCallIn } from './call-in.tsx';
export { DangerPlate, type Hazard } from './danger-plate.tsx';
export { datedHoles } from './dated-holes.ts';
export { DayPage } from './day-page.tsx';
export { LivingGround } from './living-ground.tsx';
export { useModelledHoles } from './modelled-holes.ts';
export { SafetyList } from './safety-list.tsx';
