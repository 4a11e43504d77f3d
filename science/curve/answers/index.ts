/** Answers that papers give, from the draws of a curve: docs/methods/curve-answers.md. */
export { type Acceleration, acceleration } from './acceleration.ts';
export { type Amount, type Chance, FEWEST_DRAWS } from './amount.ts';
export { type Beside, besideCurve, besidePrediction, besideShape } from './beside.ts';
export {
  type Difference,
  type DifferenceFrom,
  differenceFrom,
  type PublishedCurve,
} from './difference.ts';
export { type FastestSlowest, fastestSlowest } from './fastest-slowest.ts';
export { type HighestStand, highestStand } from './highest-stand.ts';
export { lessPrediction } from './less-prediction.ts';
export { isAnswer, type NoAnswer, type TooWide, type Window } from './paths.ts';
export {
  type AnsweredQuestion,
  answerTo,
  type Question,
  questionOf,
  questionText,
  usualAnswers,
} from './question.ts';
export { meanRateAbove, type RateAbove, rateAboveAt } from './rate-above.ts';
export { type WhenPassed, whenPassed } from './when-passed.ts';
export { type WhenSlowed, whenSlowed } from './when-slowed.ts';
