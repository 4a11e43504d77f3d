/** The curve in numbers: level and rate through time, diagnostics, sensitivity of the rates, points by influence. */
import type { Dating } from '@stillstand/campaign/budget';
import { gaugesOf, type Results, ratesComparedOf, traceId } from '@stillstand/campaign/results';
import {
  columnDecimals,
  decimalsFor,
  disagreementRule,
  everySoMany,
  gaugeInWords,
  printed,
  probability,
  range,
  rateName,
  ratesVerdict,
  saidOf,
  signed,
  years,
} from '@stillstand/output/words';
import {
  type CurveResult,
  disagreeing,
  probabilityAmongOthers,
  type RatesCompared,
} from '@stillstand/science/curve';
import { Caution, ConvergedCell, ConvergedHead } from '../marks.tsx';
import { each } from '../quantity.tsx';
import { From } from '../where/from.tsx';
import { IntervalRate } from './interval-rate.tsx';
import { WhatNext } from './next.tsx';

type Curve = CurveResult;

/** As many ages as a page shows; all of them stand in curve.csv. */
const AGES_SHOWN = 14;

function Intervals({ curve }: { curve: Curve }) {
  const { intervals } = curve;
  const decimals = columnDecimals(intervals.map((interval) => interval.rate_mm_yr.sd));
  return (
    <table className="whole">
      <caption>Sensitivity of the rates, mm/yr</caption>
      <thead>
        <tr>
          <th>interval, cal BP</th>
          <th className="n" colSpan={2}>
            mean
          </th>
          <th className="n">95 %</th>
          <th className="n">no outliers</th>
          <th className="n">no burial</th>
          <th className="n">without intercalated</th>
          <th className="n">Monte-Carlo error</th>
          <th className="n">R-hat</th>
          <th className="n">effective draws</th>
          <ConvergedHead {...curve.diagnostics} />
        </tr>
      </thead>
      <tbody>
        {each(intervals, (interval) => {
          const rate = interval.rate_mm_yr;
          return (
            <tr>
              <IntervalRate curve={curve} interval={interval} decimals={decimals} />
              {each(
                [
                  ['no outliers', interval.no_outliers_mm_yr],
                  ['no burial', interval.no_burial_mm_yr],
                  ['intercalated left out', interval.without_intercalated_mm_yr],
                ] as const,
                ([under, mean]) => (
                  <td className="n">
                    <From id={traceId.intervalUnder(interval, under)}>{signed(mean, decimals)}</From>
                  </td>
                ),
              )}
              <td className="n">{printed(rate.mcse, decimalsFor(rate.mcse, 2))}</td>
              <td className="n">{printed(rate.rhat, 3)}</td>
              <td className="n">{printed(Math.min(rate.ess_bulk, rate.ess_tail), 0)}</td>
              <ConvergedCell {...curve.diagnostics} />
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** What burial took from samples on compressible sediment, as basal points and the prior have it. */
function Burials({ curve }: { curve: Curve }) {
  return (
    <table style={{ maxWidth: '150mm' }}>
      <caption>Samples lower by burial of compressible sediment below them</caption>
      <thead>
        <tr>
          <th>hole</th>
          <th className="n">thickest, m</th>
          <th className="n">lower by, m</th>
          <th className="n">95 %</th>
          <ConvergedHead {...curve.diagnostics} />
        </tr>
      </thead>
      <tbody>
        {each(curve.burials, ({ hole, thickest_m, lowering_m }) => (
          <tr>
            <td>{hole}</td>
            <td className="n">{printed(thickest_m, 1)}</td>
            <td className="n">{printed(lowering_m.median, 2)}</td>
            <td className="n">{range(lowering_m.lower95, lowering_m.upper95, 2)}</td>
            <ConvergedCell {...curve.diagnostics} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Models of the rate, the best leave-one-out score first. */
function RatesSideBySide({ compared }: { compared: RatesCompared }) {
  const rates = compared.flatMap(({ rate_mm_yr }) => rate_mm_yr ?? []);
  const decimals = columnDecimals(rates.map(({ sd }) => sd));
  return (
    <>
      <table className="whole">
        <caption>Models of the rate, by leave-one-out score</caption>
        <thead>
          <tr>
            <th>model</th>
            <th className="n">score</th>
            <th className="n">behind the first</th>
            <th className="n">± 2 standard errors</th>
            <th className="n">rate, mm/yr</th>
            <th className="n">95 %</th>
            <th>what the data say</th>
          </tr>
        </thead>
        <tbody>
          {each(compared, (one) => (
            <tr>
              <td>{rateName(one.rate_model)}</td>
              <td className="n">{signed(one.score, 1)}</td>
              <td className="n">{one.behind === null ? '' : printed(one.behind, 1)}</td>
              <td className="n">{one.behind_se === null ? '' : printed(2 * one.behind_se, 1)}</td>
              <td className="n">{one.rate_mm_yr === null ? '' : signed(one.rate_mm_yr.mean, decimals)}</td>
              <td className="n">
                {one.rate_mm_yr === null
                  ? ''
                  : range(one.rate_mm_yr.lower95, one.rate_mm_yr.upper95, decimals)}
              </td>
              <td>{saidOf(one)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {ratesVerdict(compared)} The score is the sum of the log densities of each height, given its own date
        and all other points (Vehtari et al. 2016); a difference below 4, or below 2 standard errors, decides
        nothing. The rate is that of the first interval. None is chosen by the program.
      </p>
    </>
  );
}

/** Level and rate through time, at a page’s worth of ages. */
export function Ages({ curve }: { curve: Curve }) {
  const order = [...curve.ages_cal_bp.keys()].sort((a, b) => curve.ages_cal_bp[b]! - curve.ages_cal_bp[a]!);
  // Counted from the youngest, so that the round ages stay.
  const { shown, every } = everySoMany(order, AGES_SHOWN);
  if (shown.length === 0) return null;
  const { level_m: level, rate_mm_yr: rate } = curve;
  const levelDecimals = columnDecimals(level.sd);
  const rateDecimals = columnDecimals(rate.sd);
  return (
    <table style={{ maxWidth: '150mm' }}>
      <caption>
        Level and rate
        {every > 1 ? `, every ${ordinal(every)} age of the curve; all of them in curve.csv` : ''}
      </caption>
      <thead>
        <tr>
          <th className="n">cal BP</th>
          <th className="n">sea level, m</th>
          <th className="n">95 %</th>
          <th className="n">rate, mm/yr</th>
          <th className="n">95 %</th>
          <ConvergedHead {...curve.diagnostics} />
        </tr>
      </thead>
      <tbody>
        {each(shown, (i) => {
          return (
            <tr>
              <td className="n">{years(curve.ages_cal_bp[i]!)}</td>
              <td className="n">
                <From id={traceId.level(curve.ages_cal_bp[i]!)}>
                  {signed(level.median[i]!, levelDecimals)}
                </From>
              </td>
              <td className="n">{range(level.lower95[i]!, level.upper95[i]!, levelDecimals)}</td>
              <td className="n">
                <From id={traceId.rate(curve.ages_cal_bp[i]!)}>{signed(rate.median[i]!, rateDecimals)}</From>
              </td>
              <td className="n">{range(rate.lower95[i]!, rate.upper95[i]!, rateDecimals)}</td>
              <ConvergedCell {...curve.diagnostics} />
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function ordinal(n: number): string {
  const words = ['second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];
  return words[n - 2] ?? `${n}th`;
}

/** What the curve made of each point, and what the others have of it: the most influential first. */
function PointsInCurve({ curve }: { curve: Curve }) {
  if (curve.points.length === 0) return null;
  const points = [...curve.points].sort((a, b) => b.influence - a.influence);
  const odd = new Map(disagreeing(curve).map((point) => [point.id, point]));
  const [first] = curve.intervals;
  const of =
    first === undefined
      ? 'the rate over the whole curve'
      : `the rate from ${years(first.older_cal_bp)} to ${years(first.younger_cal_bp)} cal BP`;
  return (
    <>
      <table className="whole">
        <caption>Influence of points on {of}, and agreement among them</caption>
        <thead>
          <tr>
            <th>point</th>
            <th className="n">
              increase in 2σ
              <br />
              without it, %
            </th>
            <th className="n">
              age in the curve,
              <br />
              cal BP
            </th>
            <th className="n">95 %</th>
            <th className="n">
              age moved,
              <br />
              prior sd
            </th>
            <th className="n">residual, m</th>
            <th className="n" colSpan={2}>
              level by
              <br />
              the others, m
            </th>
            <th className="n">
              p among
              <br />
              the others
            </th>
            <th className="n" colSpan={2}>
              outlier: date,
              <br />
              height
            </th>
            <ConvergedHead {...curve.diagnostics} />
          </tr>
        </thead>
        <tbody>
          {each(points, (point) => (
            <tr>
              <td className="id">{point.id}</td>
              <td className="n">{printed(100 * point.influence, 0)}</td>
              <td className="n">
                <From id={traceId.point(point.id).ageInCurve}>{years(point.age_cal_bp.median)}</From>
              </td>
              <td className="n">{range(point.age_cal_bp.upper95, point.age_cal_bp.lower95, 0, printed)}</td>
              <td className="n">
                <Marked when={Math.abs(point.age_shift_sd) > 1}>{signed(point.age_shift_sd, 1)}</Marked>
              </td>
              <td className="n">
                {point.kind === 'index' ? (
                  <From id={traceId.point(point.id).residual}>{signed(point.residual_m, 2)}</From>
                ) : null}
              </td>
              <td className="n">{signed(point.others_level_m?.mean ?? null, 2)}</td>
              <td className="pm">
                {point.others_level_m === null ? '' : `±${printed(2 * point.others_level_m.sd, 2)}`}
              </td>
              <td className="n">
                <Marked when={odd.has(point.id)}>{probability(probabilityAmongOthers(point))}</Marked>
              </td>
              <td className="n">
                <Marked when={point.age_outlier_p > 0.5}>{printed(point.age_outlier_p, 2)}</Marked>
              </td>
              <td className="n">
                <Marked when={point.height_outlier_p > 0.5}>{printed(point.height_outlier_p, 2)}</Marked>
              </td>
              <ConvergedCell {...curve.diagnostics} />
            </tr>
          ))}
        </tbody>
      </table>
      <p className="q">
        p: probability of a height as improbable as the one found, from all other points and the point’s own
        date; of a limit, that the sea keeps to its side. Marked is {disagreementRule(curve)}. Level by the
        others: at the mean of the point’s date. Outlier: probability that date or height is wrong by more
        than its error says; the curve weighs the point by it.
      </p>
    </>
  );
}

function Marked({ when, children }: { when: boolean; children: string }) {
  if (!when) return children;
  return (
    <span style={{ color: 'var(--caution)', fontWeight: 600 }}>
      <Caution /> {children}
    </span>
  );
}

/** Whether to trust it, and how sensitive it is. */
export function Diagnostics({
  curve,
  results,
  dating,
}: {
  curve: Curve;
  results: Results;
  dating: Dating | null;
}) {
  const compared = ratesComparedOf(results);
  const { diagnostics: d, rate_sd_mm_yr: sd, length_ka: length } = curve;
  const unsettled = d.converged ? '' : ' (not converged)';
  const moved = curve.points.filter((point) => Math.abs(point.age_shift_sd) > 1);
  const rows: [string, string][] = [
    ['largest rank-normalised R-hat', printed(d.rhat_max, 4)],
    [
      'least effective draws, bulk and tail',
      `${printed(d.ess_bulk_min, 0)} and ${printed(d.ess_tail_min, 0)}`,
    ],
    ['largest Monte-Carlo error of a level', `${printed(d.mcse_level_max_m, 4)} m`],
    ['largest Monte-Carlo error of a rate', `${printed(d.mcse_rate_max_mm_yr, 4)} mm/yr`],
    [
      'chains, kept draws of each, sweeps',
      `${printed(d.chains, 0)}, ${printed(d.draws, 0)}, ${printed(d.sweeps, 0)}`,
    ],
    [
      'sd of the rate, median and 95 %',
      `${printed(sd.median, 1)}, ${range(sd.lower95, sd.upper95, 1, printed)} mm/yr${unsettled}`,
    ],
    ...(length === null
      ? []
      : [
          [
            'correlation length of the rate, median and 95 %',
            `${printed(length.median, 1)}, ${range(length.lower95, length.upper95, 1, printed)} ka${unsettled}`,
          ] as [string, string],
        ]),
  ];
  return (
    <>
      <table className="whole" style={{ maxWidth: '120mm' }}>
        <tbody>
          {each(rows, ([what, value]) => (
            <tr>
              <td>{what}</td>
              <td className="n">{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {moved.length === 0 ? null : (
        <p style={{ marginTop: '7pt' }}>
          <span style={{ color: 'var(--caution)' }}>
            <Caution />
          </span>{' '}
          The curve moved the age of {moved.map((point) => point.id).join(', ')} by more than 1 sd of what the
          laboratory and calibration say. Look at the sample again before trusting either.
        </p>
      )}
      {curve.intervals.length === 0 ? null : <Intervals curve={curve} />}
      {each(gaugesOf(results), (gauge) => (
        <p>{gaugeInWords(gauge)} All blocks in gauge_blocks.csv.</p>
      ))}
      {curve.burials.length === 0 ? null : <Burials curve={curve} />}
      {compared.length === 0 ? null : <RatesSideBySide compared={compared} />}
      <WhatNext results={results} dating={dating} />
      <PointsInCurve curve={curve} />
    </>
  );
}
