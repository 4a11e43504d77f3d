/** Sea-level curves: what `science/curve` returns, and of which sites. */
import {
  type CurveResult,
  curveShape,
  type RatesCompared,
  ratesComparedShape,
} from '@stillstand/science/curve';
import { list, number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';
import { type OtherCurveResult, otherCurveShape } from './other-curve.ts';
import { rowId } from './parts.ts';

const gaugeShape = record('annual means of a gauge that joined the curve, in blocks', {
  row_id: rowId(),
  gauge: text('label of the gauge'),
  site: orNull(text('where it stands')),
  zero_elevation_m: orNull(
    number('its zero on the campaign datum; null: not related, so that only the rate is informed', 'm'),
  ),
  sd_m: number('1 sd of a year about the smooth sea', 'm'),
  correlation: number('correlation of a year with the next, mean of its posterior', ''),
  blocks: list(
    'blocks of years',
    record('the mean of some years', {
      point: text('its label among the points of the curve'),
      from_year_ce: number('first year', 'yr CE'),
      to_year_ce: number('last year', 'yr CE'),
      years: number('years that have a mean', ''),
      year_ce: number('mean of those years', 'yr CE'),
      level_m: number('mean level above the zero of the gauge', 'm'),
      sigma_m: sigma('1 sigma about the smooth sea, without that of the zero', 'm'),
    }),
  ),
});
export type GaugeResult = ShapeValue<typeof gaugeShape>;

export const seaShape = record('a curve that was asked for', {
  id: text('name of the curve, unique in the campaign'),
  role: word('headline: the curve of the report; of its own: that of other sites, reported after it', [
    'headline',
    'of its own',
  ]),
  sites: list('sites whose points it is of', orNull(text('site; null for points without one'))),
  gauges: list('gauges whose annual means joined it', gaugeShape),
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

/** Name of the curve of the report. */
export const MAIN_CURVE = 'main';

/** Name of the curve of the report, or of the one looked at (`seenFrom`); null without one. */
export const curveLookedAt = ({ curves }: WithCurves): string | null => headlineOf(curves)?.id ?? null;

/** The name by which numbers of a curve are found in the trace: null for that of the report. */
export const nameOfCurve = (id: string | null): string | null => (id === MAIN_CURVE ? null : id);

/** The same of the curve looked at. */
export const nameInTrace = (results: WithCurves): string | null => nameOfCurve(curveLookedAt(results));

/**
 * The same results with that curve as the one that is looked at: whatever shows a curve shows it then. The very same
 * where it is looked at already, or where there is none of that name.
 */
export function seenFrom<R extends WithCurves>(results: R, id: string): R {
  if (headlineOf(results.curves)?.id === id || !results.curves.some((each) => each.id === id)) return results;
  const curves = results.curves.map(
    (each): SeaResult => ({ ...each, role: each.id === id ? 'headline' : 'of its own' }),
  );
  return { ...results, curves };
}

/** The results from each of their curves, that of the report first. */
export const fromEachCurve = <R extends WithCurves>(results: R): R[] =>
  results.curves.map(({ id }) => seenFrom(results, id));

/** The curve of the report, or the one looked at (`seenFrom`). Null where none could be computed. */
export const curveOf = ({ curves }: WithCurves): CurveResult | null => headlineOf(curves)?.curve ?? null;

/** Sites whose points that curve is of, whether or not it is computed; null for points without one. */
export const sitesOfCurve = ({ curves }: WithCurves): readonly (string | null)[] =>
  headlineOf(curves)?.sites ?? [];

/** For people; null for points without a site. */
export const siteName = (site: string | null): string => site ?? 'no site';

/** "A, B, no site", each once. */
export const sitesNamed = (sites: Iterable<string | null>): string =>
  [...new Set(sites)].map(siteName).join(', ');

/** Accepted points of sites that no curve is of. */
export const inNoCurve = <P extends { status: string; site: string | null }>({
  curves,
  points,
}: WithCurves & { readonly points: readonly P[] }): P[] =>
  points.filter(
    ({ status, site }) => status === 'accepted' && !curves.some(({ sites }) => sites.includes(site)),
  );

/** The same results with the other curves that are not done as they were before: by their names, where there were any. */
export const withOlderCurves = <R extends WithCurves>(
  results: R,
  before: ReadonlyMap<string, CurveResult | null>,
): R => ({
  ...results,
  curves: results.curves.map((each) =>
    each.role === 'headline' ? each : { ...each, curve: each.curve ?? before.get(each.id) ?? null },
  ),
});

/** Gauges whose annual means joined it. */
export const gaugesOf = ({ curves }: WithCurves): readonly GaugeResult[] => headlineOf(curves)?.gauges ?? [];

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
