/**
 * One state of a hole, and what its readings say: asked here by commands, screens, steps and figures. `holeState` reads
 * it from a campaign, `holeReader` from rows as they are typed, a key press at a time.
 */
export { agesOf, ageText, type HoleAges, type ReadingAge } from './ages.ts';
export { betweenLabel, type CableSaid, cableSaid, type MadeMark, marksOf } from './cable-marks.ts';
export { correlatedUnit } from './correlated-unit.ts';
export { type CrewUnit, type CrewUnits, crewUnits, readOn } from './crew-units.ts';
export { type CallIn, callWords } from './day/call-in.ts';
export { carriedOver, sameAsBefore } from './day/carried-over.ts';
export { type DayFacts, type DayHole, dayFacts } from './day/day-facts.ts';
export { type Emergency, LOCAL_NUMBER } from './day/emergency.ts';
export { handOverLines } from './day/hand-over.ts';
export { peopleIn } from './day/people.ts';
export { type Stop, stopsIn, stopWords } from './day/stops.ts';
export { callInNow, emergencyAt } from './day/typed-events.ts';
export type { AtHand } from './gear/gear-at-hand.ts';
export { gearList } from './gear/gear-list.ts';
export { type PackingLine, packingList } from './gear/packing.ts';
export {
  type GearItem,
  gearInventory,
  gearProblems,
  gearWords,
  type SamplerItem,
  samplerInventory,
  samplerWords,
} from './gear-inventory.ts';
export { type HoleRead, holeReader, readHole } from './hole-reader.ts';
export {
  type InstrumentOffset,
  instrumentOffsets,
  instrumentProblems,
  offsetWords,
} from './instrument-checks.ts';
export { partReader } from './part-reader.ts';
export { demandWords } from './permits/demands.ts';
export {
  PERMIT_CAUTION,
  type PermitKind,
  type PermitLevel,
  type PermitState,
  permitsOf,
} from './permits/permits.ts';
export { closingOf, conditionsNow, permitsNow } from './permits/typed-permits.ts';
export { goneWords, ofPipe, pipeAtHand } from './pipe-at-hand.ts';
export { type PipeItem, pipeInventory, whereWords } from './pipe-inventory.ts';
export { pipeProblems } from './pipe-problems.ts';
export { itemKey, stockRowOf } from './pipe-stock.ts';
export { itemsWords, type PipeTally, type TallyItem } from './pipe-tally.ts';
export { degreesMinutes, degreesOf, positionOf, positionProblems } from './positions.ts';
export { holeProblems } from './problems.ts';
export { exceededBy, type PullLoads, pullLoads } from './pull-loads.ts';
export { type RatedPart, ratedParts, USUAL_PARTS, withMarks } from './rated-parts.ts';
export { type CampaignPipe, type HolePipe, reconcileCampaign, reconcileHole } from './reconcile.ts';
export { type DayPipe, pipeDays, reconcileDay } from './reconcile-day.ts';
export {
  findingsAsRead,
  mostRecovered,
  pushFinding,
  pushProblems,
  type ReadingFinding,
} from './recovered.ts';
export {
  admitted,
  END_STATES,
  hasEnded,
  isGivenUp,
  RIG_TABLES,
  type RigEntry,
  type RigTable,
  rigEntries,
  rigSettings,
} from './rig-readings.ts';
export {
  HIGH_RISK_ACT,
  isHigh,
  RISK_CAUTION,
  riskOpen,
  riskProblems,
  risksFromCautions,
} from './risks/risks.ts';
export { inForceOf, inOrderOf, lastTyped, type RowSource, rowsOfDocument } from './row-source.ts';
export {
  ANSWER_WORDS,
  ageWords,
  byWords,
  checksOf,
  dangersOf,
  giveAnswer,
  openWords,
} from './safety/answers.ts';
export { SAFETY_QUESTIONS, type SafetyQuestion } from './safety/questions.ts';
export {
  type GivenAnswer,
  givenWords,
  type SafetyAnswer,
  type SafetyCheck,
  safetyChecks,
  safetyProblems,
} from './safety/safety.ts';
export { type HoleConflict, type HoleSource, type HoleState, holeBefore, holeState } from './state.ts';
export { lastResponse, type StoppedDrive, stoppedDrive } from './stopped-drive.ts';
export {
  lossOf,
  type PlannedDepth,
  plannedDepths,
  targetProblems,
  USUAL_MAKEUP_LOSS_M,
  USUAL_STICK_UP_M,
} from './target-depths.ts';
export { inventoryOf } from './typed-pipe.ts';
export { type Basis, fastestLift, type WeighedHead, weighedHead } from './weighed-head.ts';
export { type HoleOfCrew, workingHole } from './working-hole.ts';
