/** What was found, in a dozen lines of plain text: for the command line and the top of messages. */
import type { Severity } from '@stillstand/campaign/problems';
import {
  curveLookedAt,
  curveOf,
  fromEachCurve,
  inNoCurve,
  type PointResult,
  type Results,
  sitesNamed,
  sitesOfCurve,
} from '@stillstand/campaign/results';
import {
  AGAINST_DEPTHS,
  abruptChange,
  BEYOND,
  changesInWords,
  counted,
  datesAgainstDepths,
  decimalsFor,
  disagreementRule,
  errorsThatMoved,
  isBeyond,
  isReached,
  levelOnOnePoint,
  nothingFixes,
  outliersInWords,
  PROBABLY_WRONG,
  pointsThatDisagree,
  printed,
  range,
  rateModelInWords,
  SHARED_MOVED,
  signed,
  UNREACHED,
  years,
} from '@stillstand/output/words';
import { type CurveResult, loneEnds } from '@stillstand/science/curve';

/**
 * Holes, dates, points, each interval's rate with its 95 % range, whether it converged, which points disagree with the
 * others and which end depends on one point, problems by severity.
 */
export function headline(results: Results): string[] {
  const lines = [results.name === '' ? 'Campaign without a name' : results.name];
  lines.push(holesLine(results), datesLine(results), pointsLine(results));
  const curve = curveOf(results);
  if (curve === null)
    lines.push(
      `Sea level: no curve; ${results.points.length === 0 ? 'there are no points yet' : 'the problems say why'}`,
    );
  else lines.push(...sitesLine(results), ...curveLines(curve, loweringLine(results)));
  for (const seen of fromEachCurve(results).slice(1)) lines.push(...otherCurve(seen));
  lines.push(`Problems: ${problemCounts(results)}`);
  return lines;
}

type Curve = CurveResult;

const curveLines = (curve: Curve, lowering: readonly string[]): string[] => [
  levelLine(curve),
  ...curve.intervals.map((interval) => rateLine(curve, interval)),
  convergenceLine(curve.diagnostics),
  ...modelLines(curve),
  ...freeLine(curve),
  ...abruptLine(curve),
  ...movedLine(curve),
  ...outlierLine(curve),
  ...depthsLine(curve),
  ...lowering,
  disagreementLine(curve),
  ...loneEnds(curve).map(levelOnOnePoint),
];

/** Of another curve than that of the report; `seen` from it. */
function otherCurve(seen: Results): string[] {
  const curve = curveOf(seen);
  const head = `Curve ${curveLookedAt(seen)}, of ${sitesNamed(sitesOfCurve(seen))}`;
  if (curve === null) return [`${head}: none could be computed; the problems say why`];
  return [`${head}:`, ...curveLines(curve, []).map((line) => `  ${line}`)];
}

function holesLine({ holes }: Results): string {
  const metres = holes.reduce((sum, hole) => sum + (hole.penetration_m ?? 0), 0);
  const lost = holes.filter((hole) => hole.state === 'lost').length;
  const recoveries = holes.map((hole) => hole.recovery).filter((recovery) => recovery !== null);
  const pipe =
    recoveries.length === 0
      ? ''
      : `, pipe recovery ${span(Math.min(...recoveries), Math.max(...recoveries))}`;
  return `Holes: ${holes.length}${lost > 0 ? ` (${lost} lost)` : ''}, ${printed(metres, 1)} m driven${pipe}`;
}

function span(low: number, high: number): string {
  const [from, to] = [printed(low, 2), printed(high, 2)];
  return from === to ? from : `${from} to ${to}`;
}

function datesLine({ dates }: Results): string {
  const accepted = dates.filter((date) => date.status === 'accepted');
  if (accepted.length === 0) return `Dates: ${dates.length}, none accepted`;
  const medians = accepted.map((date) => date.median_cal_bp);
  const rejected = dates.length - accepted.length;
  const ages = `${years(Math.max(...medians))} to ${years(Math.min(...medians))} cal BP`;
  return `Dates: ${accepted.length} accepted${rejected > 0 ? `, ${rejected} rejected` : ''}, ${ages}`;
}

function pointsLine({ points }: Results): string {
  const accepted = points.filter((point) => point.status === 'accepted');
  const rejected = points.length - accepted.length;
  const kinds = KINDS.map(({ kind, word }) => ({
    word,
    n: accepted.filter((point) => point.kind === kind).length,
  }));
  const counts = kinds.filter(({ n }) => n > 0).map(({ word, n }) => `${n} ${word}`);
  if (rejected > 0) counts.push(`${rejected} rejected`);
  return `Points: ${counts.length === 0 ? 'none' : counts.join(', ')}`;
}

const KINDS: { kind: PointResult['kind']; word: string }[] = [
  { kind: 'index', word: 'index' },
  { kind: 'terrestrial', word: 'terrestrial limiting' },
  { kind: 'marine', word: 'marine limiting' },
];

function levelLine(curve: Curve): string {
  const oldest = indexOfOldest(curve.ages_cal_bp);
  if (oldest === -1) return 'Sea level: no age was asked for';
  const { median, sd, lower95, upper95 } = curve.level_m;
  const decimals = decimalsFor(2 * sd[oldest]!, 1);
  const level = signed(median[oldest]!, decimals);
  const age = curve.ages_cal_bp[oldest]!;
  return `Sea level at ${years(age)} cal BP: ${level} m, 95 % ${range(lower95[oldest]!, upper95[oldest]!, decimals)}${unsettled(curve)}${isBeyond(curve, age) ? `. ${BEYOND}` : ''}`;
}

/** After every number of a curve that has not converged. */
const unsettled = ({ diagnostics }: Curve): string => (diagnostics.converged ? '' : ' (NOT CONVERGED)');

/** Which sites it is of, and points in no curve at all; nothing where all are of one site. */
function sitesLine(results: Results): string[] {
  const sites = sitesOfCurve(results);
  const others = inNoCurve(results);
  if (sites.length < 2 && others.length === 0 && results.curves.length < 2) return [];
  const left =
    others.length === 0
      ? ''
      : `; ${counted(others.length, 'point')} of ${sitesNamed(others.map(({ site }) => site))} in no curve`;
  return [`Curve of ${sitesNamed(sites)}${left}`];
}

function freeLine(curve: Curve): string[] {
  const free = nothingFixes(curve);
  return free === null ? [] : [free];
}

function abruptLine(curve: Curve): string[] {
  const found = abruptChange(curve);
  return found === null ? [] : [found];
}

/** A rate that is not smooth, or not smooth alone, and what was found. */
function modelLines(curve: Curve): string[] {
  const { kind, changes, slowing_mm_yr_ka } = curve.settings.rate_model;
  const isUsual = kind === 'smooth' && changes === 0 && slowing_mm_yr_ka === 0;
  return [
    ...(isUsual ? [] : [`Model: ${rateModelInWords(curve.settings.rate_model)}`]),
    ...changesInWords(curve).map((line) => `${line}${unsettled(curve)}`),
  ];
}

function outlierLine(curve: Curve): string[] {
  const found = outliersInWords(curve);
  return found === null ? [] : [`${PROBABLY_WRONG}: ${found}`];
}

function movedLine(curve: Curve): string[] {
  const found = errorsThatMoved(curve);
  return found === null ? [] : [`${SHARED_MOVED}: ${found}`];
}

function depthsLine(curve: Curve): string[] {
  const found = datesAgainstDepths(curve);
  return found === null ? [] : [`${AGAINST_DEPTHS}: ${found}`];
}

/** Nothing in such data could show that a level is too low. */
function loweringLine({ problems }: Results): string[] {
  const untold = problems.find(
    ({ code, severity }) => code === 'lowering-not-stated' && severity === 'warning',
  );
  return untold === undefined
    ? []
    : [
        `No basal index point, and of intercalated ones no thickness below: ${untold.found}. The level may be too low`,
      ];
}

function disagreementLine(curve: Curve): string {
  const found = pointsThatDisagree(curve);
  return found === null
    ? `No point disagrees with the others: none has ${disagreementRule(curve)}`
    : `Points disagree with the others: ${found}. Named is ${disagreementRule(curve)}`;
}

/** Where in the list the greatest age stands; −1 in an empty one. */
export function indexOfOldest(ages: Float64Array): number {
  let oldest = -1;
  for (let i = 0; i < ages.length; i++) if (oldest === -1 || ages[i]! > ages[oldest]!) oldest = i;
  return oldest;
}

function rateLine(curve: Curve, interval: Curve['intervals'][number]): string {
  const { mean, sd, lower95, upper95 } = interval.rate_mm_yr;
  const decimals = decimalsFor(2 * sd, 1);
  const ages = `${years(interval.older_cal_bp)} to ${years(interval.younger_cal_bp)} cal BP`;
  return `Rate ${ages}: ${signed(mean, decimals)} mm/yr, 95 % ${range(lower95, upper95, decimals)}${unsettled(curve)}${isReached(curve, interval) ? '' : `. ${UNREACHED}`}`;
}

function convergenceLine(diagnostics: Curve['diagnostics']): string {
  const numbers = `largest R-hat ${printed(diagnostics.rhat_max, 3)}, least effective draws ${printed(
    Math.floor(Math.min(diagnostics.ess_bulk_min, diagnostics.ess_tail_min)),
    0,
  )}`;
  if (diagnostics.converged) return `Converged: ${numbers}`;
  return `NOT CONVERGED: ${[numbers, ...diagnostics.remarks].join('; ')}`;
}

const SEVERITIES: { severity: Severity; one: string; many: string }[] = [
  { severity: 'danger', one: 'danger', many: 'dangers' },
  { severity: 'error', one: 'error', many: 'errors' },
  { severity: 'warning', one: 'warning', many: 'warnings' },
  { severity: 'note', one: 'note', many: 'notes' },
];

/** "1 danger, 3 warnings", the gravest first; "none". */
export function problemCounts({ problems }: Results): string {
  const counts = SEVERITIES.map(({ severity, one, many }) => {
    const n = problems.filter((problem) => problem.severity === severity).length;
    return n === 0 ? '' : counted(n, one, many);
  });
  return counts.filter((count) => count !== '').join(', ') || 'none';
}
