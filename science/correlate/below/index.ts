/** What is expected below a hole, from its neighbours. Formulae, assumptions and limits: docs/methods/below.md. */
export { type ExpectedBelow, type ExpectedContact, expectedBelow } from './expected-below.ts';
export type { HoleBelow, TiedBases, UnitBelow } from './holes.ts';
export { type BelowSettings, belowDefaults } from './settings.ts';
