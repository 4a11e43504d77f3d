/** What a hole's readings say, asked in one place by steps, figures and every surface. */
export { type CableSaid, cableSaid, type MadeMark, marksIn, marksNote } from './cable-marks.ts';
export { type PipeItem, pipeInventory, pipeProblems, whereWords } from './pipe-inventory.ts';
export { admitted, hasEnded, type RigEntry, type RigTable, rigEntries, rigSettings } from './rig-readings.ts';
export {
  type GivenAnswer,
  givenWords,
  type SafetyAnswer,
  type SafetyCheck,
  safetyChecks,
  safetyProblems,
} from './safety.ts';
export { SAFETY_QUESTIONS, type SafetyQuestion } from './safety-questions.ts';
export { type HoleOfCrew, workingHole } from './working-hole.ts';
