/** Numbers that are no part of the results: rates over an interval and answers, as a person asks for them. */
import {
  answerOf,
  curveNamed,
  curveOf,
  intervalOf,
  type Results,
  seenFrom,
  type TraceId,
  type TraceNode,
  traceId,
} from '@stillstand/campaign/results';
import { answerTo, intervalRate, isAnswer, questionOf } from '@stillstand/science/curve';
import { tellAnswer, tellInterval, unlessConverged } from '../words/curve.ts';

/**
 * The node of an interval's rate or of an answer, of the curve that the name is of; its parts are in the trace. Null where
 * no curve has such a number.
 */
export function chosenNumber(id: TraceId, results: Results): TraceNode | null {
  const { curve: named, of } = curveNamed(id);
  if (named !== null && !results.curves.some((each) => each.id === named)) return null;
  const curve = curveOf(named === null ? results : seenFrom(results, named));
  if (curve === null) return null;
  const question = questionOf(answerOf(of) ?? '');
  const its = (part: TraceId): TraceId => traceId.ofCurve(named, part);
  if (question !== null) {
    // Made of all draws of the curve.
    const answered = answerTo(curve, question);
    if (!isAnswer(answered)) return null;
    const told = unlessConverged(tellAnswer(answered, curve), curve);
    return { id, ...told, signed: told.signed ?? false, row: null, parts: [its(traceId.curve)] };
  }
  const ends = intervalOf(of);
  if (ends === null) return null;
  const { older_cal_bp: older, younger_cal_bp: younger } = ends;
  const rate = intervalRate(curve, older, younger)?.rate_mm_yr;
  if (rate === undefined) return null;
  const told = tellInterval(ends, rate.mean, rate.sd);
  const parts = [its(traceId.level(younger)), its(traceId.level(older))];
  return { id, ...told, signed: true, row: null, parts };
}
