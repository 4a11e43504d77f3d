/** The curve as a figure of two columns: the drawing, its notes, warnings and caption. */
import {
  fromEachCurve,
  nameInTrace,
  type PointResult,
  type Results,
  sitesNamed,
  sitesOfCurve,
} from '@stillstand/campaign/results';
import {
  AGAINST_DEPTHS,
  abruptChange,
  counted,
  datesAgainstDepths,
  decimalsDrawn,
  isReached,
  levelOnOnePoint,
  outliersInWords,
  PROBABLY_WRONG,
  pointsThatDisagree,
  printed,
  rateModelInWords,
  yearRange,
} from '@stillstand/output/words';
import { type CurveResult, loneEnds } from '@stillstand/science/curve';
import { ageWarnings, yearsOf } from './chronology.ts';
import { CurveDrawing } from './curve/drawing.tsx';
import { type CurveLayout, curveLayout } from './curve/layout.ts';
import type { Interval } from './curve/panel.tsx';
import type { Panels } from './curve/panels.ts';
import { rateLabels } from './curve/rate-labels.ts';
import { diagnosticsInWords, notConverged } from './diagnostics.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, plainName, type Warning } from './figure.tsx';

/** Heights of the two panels on paper, points; lower on a narrow one, so that the slopes keep their look. */
const heights = (inner: number) => ({
  level_height: Math.min(268, 0.95 * inner),
  rate_height: Math.min(118, 0.45 * inner),
});

/** The same of each curve of the campaign: `curve` that of the report, `curve-NAME` the others. */
export const curveFigures = (results: Results, options: FigureOptions = {}): Figure[] =>
  results.curves.length < 2
    ? [curveFigure(results, options)]
    : fromEachCurve(results).map((seen) => curveFigure(seen, options));

/** The sea-level curve and its rate, two columns wide; the points alone where no curve could be computed. */
export function curveFigure(results: Results, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const layout = curveLayout(results, { width: inner, ...heights(inner) }, options.axes);
  const { panels: p, height } = layout;
  const named = nameInTrace(results);
  const several = results.curves.length > 1;
  const isLettered = options.journal === true && p.curve !== null;
  return drawn(
    {
      name: named === null ? 'curve' : `curve-${plainName(named)}`,
      width: 'two',
      title: `${results.name}, relative sea level${several ? ` of ${sitesNamed(sitesOfCurve(results))}` : ''}`,
      notes: notes(p),
      warnings: curveWarnings(p),
      caption: {
        head:
          p.curve === null
            ? 'Relative sea level.'
            : `Relative sea level${isLettered ? ' (a)' : ''} and its rate${isLettered ? ' (b)' : ''}.`,
        text: curveCaption(layout, options),
      },
      height,
    },
    <CurveDrawing layout={layout} id="curve" letters={isLettered ? { level: 'a', rate: 'b' } : null} />,
    options,
  );
}

const count = (points: Panels['points'], test: (point: PointResult) => boolean): number =>
  points.filter(({ point }) => test(point)).length;

function notes(p: Panels): string[] {
  const all = [...p.points.map(({ point }) => point), ...p.outside];
  const rejected = all.filter((point) => point.status === 'rejected').length;
  const used = all.length - rejected;
  const d = p.curve?.diagnostics;
  return [
    `${counted(used, 'point')}${rejected > 0 ? `, ${printed(rejected)} rejected` : ''}${p.outside.length > 0 ? `, ${printed(p.outside.length)} outside the frame` : ''}`,
    ...(d?.converged === true ? [`converged: ${diagnosticsInWords(d)}`] : []),
  ];
}

/** What the reader must know before trusting the curve; without one, that. */
export function curveWarnings(p: Panels): Warning[] {
  const out: Warning[] = [];
  if (p.curve === null) {
    out.push({ kind: 'caution', text: 'No curve: only the points are drawn' });
  } else if (!p.curve.diagnostics.converged) {
    out.push({ kind: 'not_converged', text: notConverged(p.curve.diagnostics) });
  }
  const outliers = p.curve === null ? null : outliersInWords(p.curve);
  if (outliers !== null) out.push({ kind: 'caution', text: `${PROBABLY_WRONG}: ${outliers}` });
  const abrupt = p.curve === null ? null : abruptChange(p.curve);
  if (abrupt !== null) out.push({ kind: 'caution', text: abrupt });
  const against = p.curve === null ? null : datesAgainstDepths(p.curve);
  if (against !== null) out.push({ kind: 'caution', text: `${AGAINST_DEPTHS}: ${against}` });
  const disagree = p.curve === null ? null : pointsThatDisagree(p.curve);
  if (disagree !== null) out.push({ kind: 'caution', text: `Points disagree with the others: ${disagree}` });
  out.push(...ageWarnings(p.dates));
  return out;
}

function modelUsed({ settings }: NonNullable<Panels['curve']>): string {
  const words = rateModelInWords(settings.rate_model);
  return `${words[0]!.toUpperCase()}${words.slice(1)}.`;
}

/** How level and rate are read, after their head. */
export function curveCaption({ panels: p, dates, far }: CurveLayout, { axes = {} }: FigureOptions): string {
  const { curve } = p;
  const limits = count(p.points, (point) => point.kind !== 'index') > 0;
  const parts = [
    `Boxes are 95 % of the age by 2 sd of the height, with ${p.sites.length > 0 ? 'the mark of the site' : 'a dot'} at the median; those on a heavy base are basal.`,
    limits ? 'Limits have ticks, 2 sd long, pointing to where the sea was.' : '',
  ];
  parts.push(datedByDepth(p.points));
  if (p.dates.length > 0) {
    const drawn =
      dates.kind === 'densities' ? 'the densities of the dates' : 'a dot at the median of each date';
    parts.push(`At the foot ${drawn}${yearsOf(p.dates)}.`);
  }
  if (far.length > 0) {
    parts.push(
      `${far.map(({ words }) => words).join('; ')}${p.timeAxis.unit}: beyond the ages drawn, an arrow at the edge.`,
    );
  }
  if (curve !== null) {
    const { tie } = curve.settings;
    parts.push(
      'Curve and rate: median bold, 68 % fine, 95 % dotted, thin lines a few single draws.',
      modelUsed(curve),
      tie === null
        ? ''
        : `Sea level is held to 0 ±${printed(2 * tie.sd_m, decimalsDrawn(2 * tie.sd_m))} m (2 sd) in ${tie.year_ce}.`,
      curve.intervals.length > 0 ? 'Bars in the rate are means over an interval with their 95 %.' : '',
      unwritten(p, curve),
      unreached(curve),
      ...loneEnds(curve).map(levelOnOnePoint),
      `${counted(curve.diagnostics.chains, 'chain')} of ${counted(curve.diagnostics.draws, 'draw')}.`,
    );
  }
  if (axes.ages === 'ce')
    parts.push(
      'Years CE are 1950 less the age in cal BP; years BCE are the age less 1949, there being no year 0.',
    );
  const unseen = p.outside.filter((point) => point.status === 'accepted').length - far.length;
  if (unseen > 0)
    parts.push(
      `${counted(unseen, 'point')} beyond the limits of the axes ${unseen === 1 ? 'is' : 'are'} not shown.`,
    );
  if (p.elsewhere.length > 0) parts.push(otherSites(p.elsewhere));
  parts.push(publishedInWords(p));
  return parts.filter((part) => part !== '').join(' ');
}

/** "Points of T3 have the ages of their depths, by all clocks of the hole together." */
function datedByDepth(points: Panels['points']): string {
  const holes = [
    ...new Set(points.flatMap(({ point: { by_depth, hole } }) => (by_depth && hole !== null ? [hole] : []))),
  ];
  return holes.length === 0
    ? ''
    : `Points of ${holes.join(', ')} have the ages of their depths, by all clocks of ${holes.length === 1 ? 'the hole' : 'each hole'} together.`;
}

/** "Crosses are published points: Smith 2001; Jones 2010." */
function publishedInWords({ published, published_outside: outside }: Panels): string {
  const sources = [...new Set(published.map(({ point }) => point.source))];
  const drawn =
    sources.length === 0 ? '' : `Crosses are published points (${sources.join('; ')}), in no curve.`;
  const left = outside === 0 ? '' : `${counted(outside, 'published point')} outside the frame.`;
  return [drawn, left].filter((part) => part !== '').join(' ');
}

/** Whether a bar has no room for its number. */
function unwritten(p: Panels, curve: CurveResult): string {
  const all = rateLabels(p, curve.intervals, curve.diagnostics.converged);
  return all.some(({ place }) => place === null) ? 'Rates without room here are in the table of rates.' : '';
}

/** Which rates no index point measures. */
function unreached(curve: CurveResult): string {
  const empty = joined(curve.intervals.filter((interval) => !isReached(curve, interval)));
  if (empty.length === 0) return '';
  const named = empty.map(({ older_cal_bp, younger_cal_bp }) => yearRange(older_cal_bp, younger_cal_bp));
  return `No index point lies within ${named.join(', ')} cal BP.`;
}

/** Intervals that follow each other without a gap, as one. */
function joined(intervals: readonly Interval[]): Interval[] {
  const out: Interval[] = [];
  for (const { older_cal_bp, younger_cal_bp } of intervals) {
    const last = out.at(-1);
    if (last?.younger_cal_bp === older_cal_bp) out[out.length - 1] = { ...last, younger_cal_bp };
    else out.push({ older_cal_bp, younger_cal_bp });
  }
  return out;
}

function otherSites(points: readonly PointResult[]): string {
  return `${counted(points.length, 'point')} of ${sitesNamed(points.map(({ site }) => site))} ${points.length === 1 ? 'is' : 'are'} not in this curve.`;
}
