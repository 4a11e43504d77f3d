/** The curve as a figure of two columns: the drawing, its notes, warnings and caption. */
import type { PointResult, Results } from '@stillstand/campaign/results';
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
import type { CurveAxes } from './curve/axes.ts';
import { CurveDrawing } from './curve/drawing.tsx';
import { curveLayout } from './curve/layout.ts';
import type { Panels } from './curve/panels.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, type Warning } from './figure.tsx';

/** Heights of the two panels on paper, points; lower on a narrow one, so that the slopes keep their look. */
const heights = (inner: number) => ({
  level_height: Math.min(268, 0.95 * inner),
  rate_height: Math.min(118, 0.45 * inner),
});

/** The sea-level curve and its rate, two columns wide; the points alone where no curve could be computed. */
export function curveFigure(results: Results, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const layout = curveLayout(results, { width: inner, ...heights(inner) }, options.axes);
  const { panels: p, height } = layout;
  const isLettered = options.journal === true && p.curve !== null;
  return drawn(
    {
      name: 'curve',
      width: 'two',
      title: `${results.name}, relative sea level`,
      notes: notes(p),
      warnings: warnings(p),
      caption: {
        head:
          p.curve === null
            ? 'Relative sea level.'
            : `Relative sea level${isLettered ? ' (a)' : ''} and its rate${isLettered ? ' (b)' : ''}.`,
        text: captionText(p, options),
      },
      height,
    },
    <CurveDrawing layout={layout} id="curve" isLettered={isLettered} />,
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
    ...(d === undefined
      ? []
      : [
          `${d.converged ? 'converged' : 'not converged'}: R-hat ${printed(d.rhat_max, 3)}, at least ${printed(Math.floor(Math.min(d.ess_bulk_min, d.ess_tail_min)))} effective draws`,
        ]),
  ];
}

function warnings(p: Panels): Warning[] {
  const out: Warning[] = [];
  if (p.curve === null) {
    out.push({ kind: 'caution', text: 'No curve: only the points are drawn' });
  } else if (!p.curve.diagnostics.converged) {
    const remarks = firstRemarks(p.curve.diagnostics.remarks);
    out.push({
      kind: 'not_converged',
      text: `Not converged: the hatched bands and rates are not to be used${remarks === '' ? '' : ` (${remarks})`}`,
    });
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

/** So many are a warning; the report and the results have them all. */
const REMARKS = 3;

/** "a; b; c; 92 more". */
function firstRemarks(remarks: readonly string[]): string {
  const more = remarks.length - REMARKS;
  const first = remarks.slice(0, REMARKS).map((remark) => remark.replace(/\.$/, ''));
  return [...first, ...(more > 0 ? [`${printed(more)} more`] : [])].join('; ');
}

function modelUsed({ settings }: NonNullable<Panels['curve']>): string {
  const words = rateModelInWords(settings.rate_model);
  return `${words[0]!.toUpperCase()}${words.slice(1)}.`;
}

function captionText(p: Panels, { axes = {} }: FigureOptions): string {
  const { curve } = p;
  const limits = count(p.points, (point) => point.kind !== 'index') > 0;
  const parts = [
    'Boxes are 95 % of the age by 2 sd of the height, with a dot at the median; those on a heavy base are basal.',
    limits ? 'Limits have ticks, 2 sd long, pointing to where the sea was.' : '',
  ];
  if (p.dates.length > 0) parts.push(`Grey, the densities of the dates${yearsOf(p.dates)}.`);
  if (curve !== null) {
    const { tie } = curve.settings;
    parts.push(
      'Curve and rate: median bold, 68 % fine, 95 % dotted, thin lines a few single draws.',
      modelUsed(curve),
      tie === null
        ? ''
        : `Sea level is held to 0 ±${printed(2 * tie.sd_m, decimalsDrawn(2 * tie.sd_m))} m (2 sd) in ${tie.year_ce}.`,
      curve.intervals.length > 0 ? 'Bars in the rate are means over an interval with their 95 %.' : '',
      unreached(curve),
      ...loneEnds(curve).map(levelOnOnePoint),
      `${counted(curve.diagnostics.chains, 'chain')} of ${counted(curve.diagnostics.draws, 'draw')}.`,
    );
  }
  if (axes.ages === 'ce') parts.push('Years BCE and CE are 1950 less the age in cal BP.');
  const unseen = p.outside.filter((point) => point.status === 'accepted').length;
  if (unseen > 0 && isLimited(axes))
    parts.push(
      `${counted(unseen, 'point')} beyond the limits of the axes ${unseen === 1 ? 'is' : 'are'} not shown.`,
    );
  if (p.elsewhere.length > 0) parts.push(otherSites(p.elsewhere));
  return parts.filter((part) => part !== '').join(' ');
}

const isLimited = (axes: CurveAxes): boolean =>
  [axes.oldest_cal_bp, axes.youngest_cal_bp, axes.highest_m, axes.lowest_m].some((end) => end !== undefined);

/** Which rates no index point measures. */
function unreached(curve: CurveResult): string {
  const empty = curve.intervals.filter((interval) => !isReached(curve, interval));
  if (empty.length === 0) return '';
  const named = empty.map(({ older_cal_bp, younger_cal_bp }) => yearRange(older_cal_bp, younger_cal_bp));
  return `No index point lies within ${named.join(', ')} cal BP.`;
}

function otherSites(points: readonly PointResult[]): string {
  const sites = [...new Set(points.map(({ site }) => site ?? 'no site'))];
  return `${counted(points.length, 'point')} of ${sites.join(', ')} ${points.length === 1 ? 'is' : 'are'} not in this curve.`;
}
