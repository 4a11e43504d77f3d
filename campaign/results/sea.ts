/** Sea-level curves: what `science/curve` returns, and of which sites. */
import {
  type CurveResult,
  curveShape,
  type RatesCompared,
  ratesComparedShape,
} from '@stillstand/science/curve';
import { list, orNull, record, type ShapeValue, text, word } from '@stillstand/science/shape';
import { type OtherCurveResult, otherCurveShape } from './other-curve.ts';

export const seaShape = record('a curve that was asked for', {
  id: text('name of the curve, unique in the campaign'),
  role: word('headline: the curve of the report', ['headline']),
  sites: list('sites whose points it is of', orNull(text('site; null for points without one'))),
  curve: orNull(curveShape),
  rates_compared: ratesComparedShape,
  others: list(
    'other curves and predictions of the table other_curves, each with what lies between; empty without a curve',
    otherCurveShape,
  ),
});
export type SeaResult = ShapeValue<typeof seaShape>;

interface WithCurves {
  readonly curves: readonly SeaResult[];
}

/** The curve of the report; with several, each has a report of its own. Null where none could be computed. */
export const curveOf = ({ curves }: WithCurves): CurveResult | null => headlineOf(curves)?.curve ?? null;

/** Sites whose points that curve is of, whether or not it is computed; null for points without one. */
export const sitesOfCurve = ({ curves }: WithCurves): readonly (string | null)[] =>
  headlineOf(curves)?.sites ?? [];

/** Models of the rate compared for it, the best first; empty where that was not asked, or is not done. */
export const ratesComparedOf = ({ curves }: WithCurves): RatesCompared =>
  headlineOf(curves)?.rates_compared ?? [];

/** Other curves and predictions beside it. */
export const othersBeside = ({ curves }: WithCurves): readonly OtherCurveResult[] =>
  headlineOf(curves)?.others ?? [];

/** The same results with another headline curve, e.g. a preview. */
export const withCurve = <R extends WithCurves>(results: R, curve: CurveResult | null): R => ({
  ...results,
  curves: results.curves.map((each) => (each === headlineOf(results.curves) ? { ...each, curve } : each)),
});

const headlineOf = (curves: readonly SeaResult[]): SeaResult | undefined =>
  curves.find(({ role }) => role === 'headline');
