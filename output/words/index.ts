/** Results in words: numbers as they are printed, parts of an error by name, what must be said with a curve. */
export {
  besideDoubts,
  besideLarger,
  besideRates,
  besideTitle,
  differenceCells,
  shareOfPairs,
} from './beside.ts';
export {
  type AnswerInWords,
  type AnswerRow,
  answerInWords,
  answerRows,
  questionTitle,
  share,
} from './curve-answers.ts';
export {
  AGAINST_DEPTHS,
  curveDoubts,
  datesAgainstDepths,
  disagreementRule,
  errorsThatMoved,
  levelOnOnePoint,
  nothingFixes,
  outliersInWords,
  PROBABLY_WRONG,
  pointsThatDisagree,
  probability,
  SHARED_MOVED,
} from './curve-doubts.ts';
export { curveCalled } from './curve-name.ts';
export { BEYOND, isBeyond, isReached, UNREACHED } from './curve-reach.ts';
export { fundsInWords, type Payable, payableInWords, payableOf } from './date-funds.ts';
export {
  againstTheSea,
  agesInWords,
  atLeastInWords,
  betweenAges,
  edgeAt,
  innerSide,
  lastedInWords,
  likely,
  notConvergedHoles,
  rateInWords,
  spellName,
  standingAt,
  THROUGH_TIME_ASSUMES,
} from './environments.ts';
export { partName, sharedThrough } from './error-parts.ts';
export { askedInWords, percentExpected } from './expected.ts';
export { type GaugeMeans, gaugeInWords } from './gauge.ts';
export { type LayersToDate, layerName, layersToDate } from './layers-to-date.ts';
export { isLimit } from './limit.ts';
export {
  choiceKind,
  choicesOf,
  type DateChoice,
  datesForIntervals,
  datingOf,
  datingsOf,
  nextDates,
  notRanked,
  pricesInWords,
  promiseAssumes,
  promiseDoubts,
  promiseDoubtsOf,
  successInWords,
  togetherInWords,
  worthAlone,
} from './next-dates.ts';
export {
  columnDecimals,
  counted,
  decimalsDrawn,
  decimalsFor,
  decimalsOfStep,
  everySoMany,
  printed,
  range,
  signed,
  written,
  yearRange,
  years,
} from './number.ts';
export { price } from './price.ts';
export { raised } from './raised.ts';
export {
  abruptChange,
  changesInWords,
  rateModelInWords,
  rateName,
  ratesVerdict,
  saidOf,
  shortestSwing,
} from './rate-model.ts';
export { sharedErrorInWords } from './shared-errors.ts';
export { countedFrom, statedAge } from './stated-age.ts';
export { tracedNumber } from './traced.ts';
