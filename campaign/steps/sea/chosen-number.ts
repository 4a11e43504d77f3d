/** Numbers that are no part of the results: rates over an interval and answers, as a person asks for them. */
import { answerOf, intervalOf, type TraceId, type TraceNode, traceId } from '@stillstand/campaign/results';
import { answerTo, type CurveResult, intervalRate, isAnswer, questionOf } from '@stillstand/science/curve';
import { tellAnswer, tellInterval, unlessConverged } from '../words/curve.ts';

/** The node of an interval's rate or of an answer; its parts are in the trace. Null where the curve has no such number. */
export function chosenNumber(id: TraceId, curve: CurveResult): TraceNode | null {
  const question = questionOf(answerOf(id) ?? '');
  if (question !== null) {
    // Made of all draws of the curve.
    const answered = answerTo(curve, question);
    if (!isAnswer(answered)) return null;
    const told = unlessConverged(tellAnswer(answered, curve), curve);
    return { id, ...told, signed: told.signed ?? false, row: null, parts: [traceId.curve] };
  }
  const ends = intervalOf(id);
  if (ends === null) return null;
  const { older_cal_bp: older, younger_cal_bp: younger } = ends;
  const rate = intervalRate(curve, older, younger)?.rate_mm_yr;
  if (rate === undefined) return null;
  const told = tellInterval(ends, rate.mean, rate.sd);
  return { id, ...told, signed: true, row: null, parts: [traceId.level(younger), traceId.level(older)] };
}
