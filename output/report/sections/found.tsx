/** What was found: the rates of the intervals, the height of the sea, and whether the numbers can be trusted. */

import {
  curveOf,
  inNoCurve,
  othersBeside,
  type Results,
  sitesNamed,
  sitesOfCurve,
  traceId,
} from '@stillstand/campaign/results';
import {
  BEYOND,
  changesInWords,
  columnDecimals,
  curveDoubts,
  decimalsFor,
  disagreementRule,
  isBeyond,
  isReached,
  pointsThatDisagree,
  printed,
  range,
  shortestSwing,
  signed,
  years,
} from '@stillstand/output/words';
import type { CurveResult } from '@stillstand/science/curve';
import type { ReactNode } from 'react';
import { indexOfOldest } from '../headline.ts';
import { Caution, ConvergedCell, ConvergedHead, NotConverged, Tick, Unreached } from '../marks.tsx';
import { each } from '../quantity.tsx';
import { From } from '../where/from.tsx';
import { Answers } from './answers.tsx';
import { BesideCurve } from './beside.tsx';
import { IntervalRate } from './interval-rate.tsx';

type Curve = CurveResult;
type Interval = Curve['intervals'][number];

export function Found({ results }: { results: Results }) {
  const curve = curveOf(results);
  if (curve === null) {
    return (
      <>
        <h2 id="found">What was found</h2>
        <p className="lede">No sea-level curve could be computed. The problem list says what is missing.</p>
      </>
    );
  }
  return (
    <>
      <h2 id="found">What was found</h2>
      <InNumbers curve={curve}>
        {each(othersBeside(results), (other) => (
          <BesideCurve other={other} diagnostics={curve.diagnostics} />
        ))}
      </InNumbers>
      <Sites results={results} />
    </>
  );
}

/** Of one curve: its rates, levels and answers, whether to trust it; `children` between them. */
export function InNumbers({ curve, children }: { curve: Curve; children?: ReactNode }) {
  const [first] = curve.intervals;
  return (
    <>
      {first === undefined ? (
        <p>No interval was asked for, so no rate is reported.</p>
      ) : (
        <Answer curve={curve} interval={first} />
      )}
      {curve.intervals.length < 2 && !isTested(curve.intervals) ? null : <Rates curve={curve} />}
      <Levels curve={curve} />
      <Answers curve={curve} />
      {children}
      <Trust diagnostics={curve.diagnostics} />
      <Doubts curve={curve} />
    </>
  );
}

function Answer({ curve, interval }: { curve: Curve; interval: Interval }) {
  const { mean, sd, lower95, upper95 } = interval.rate_mm_yr;
  const decimals = decimalsFor(2 * sd, 1, 2);
  const span = interval.older_cal_bp - interval.younger_cal_bp;
  // Millimetres a year over years, in metres.
  const change_m = (mean * span) / 1000;
  return (
    <div className="answer">
      <div className="label">Rate, {agesOf(interval)}</div>
      <div className="number">
        <From id={traceId.interval(interval)}>{signed(mean, decimals)}</From>
        <span className="u">mm/yr</span>
        <span className="pm">±{printed(2 * sd, decimals)}</span>
      </div>
      {curve.diagnostics.converged ? null : (
        <p className="not-converged">
          <NotConverged /> Not converged
        </p>
      )}
      {isReached(curve, interval) ? null : (
        <p>
          <Unreached />
        </p>
      )}
      <p className="q">
        95 % {range(lower95, upper95, decimals)} mm/yr. The sea {change_m < 0 ? 'fell' : 'rose'}{' '}
        {printed(Math.abs(change_m), decimalsFor((2 * sd * span) / 1000, 1, 2))} m in {years(span)} years.
      </p>
    </div>
  );
}

/** Whether any rate was computed again with other priors. */
const isTested = (intervals: readonly Interval[]) =>
  intervals.some((interval) => interval.prior_halved_mm_yr !== null || interval.prior_doubled_mm_yr !== null);

/** Every rate, and where it goes when the prior of the rate's sd is halved or doubled. */
function Rates({ curve }: { curve: Curve }) {
  const { intervals } = curve;
  const decimals = columnDecimals(intervals.map((interval) => interval.rate_mm_yr.sd));
  const tested = isTested(intervals);
  return (
    <table>
      <thead>
        <tr>
          <th>rate over, cal BP</th>
          <th className="n" colSpan={2}>
            mm/yr
          </th>
          <th className="n">95 %</th>
          {tested ? <th className="n">prior halved, doubled</th> : null}
          <ConvergedHead {...curve.diagnostics} />
        </tr>
      </thead>
      <tbody>
        {each(intervals, (interval) => (
          <tr>
            <IntervalRate curve={curve} interval={interval} decimals={decimals} />
            {tested ? (
              <td className="n wraps">
                <From id={traceId.intervalUnder(interval, 'prior halved')}>
                  {signed(interval.prior_halved_mm_yr, decimals)}
                </From>
                ,{' '}
                <From id={traceId.intervalUnder(interval, 'prior doubled')}>
                  {signed(interval.prior_doubled_mm_yr, decimals)}
                </From>
              </td>
            ) : null}
            <ConvergedCell {...curve.diagnostics} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The sea at the oldest age reported. */
function Levels({ curve }: { curve: Curve }) {
  const { ages_cal_bp: ages, level_m: level } = curve;
  const oldest = indexOfOldest(ages);
  if (oldest === -1) return null;
  const rows = [{ what: 'at the oldest age', at: oldest }];
  return (
    <table>
      <thead>
        <tr>
          <th>sea level</th>
          <th className="n">cal BP</th>
          <th className="n">m</th>
          <th className="n">95 %</th>
          <ConvergedHead {...curve.diagnostics} />
        </tr>
      </thead>
      <tbody>
        {each(rows, ({ what, at }) => {
          const decimals = decimalsFor(2 * level.sd[at]!, 1, 2);
          return (
            <tr>
              <td>
                {what}{' '}
                {isBeyond(curve, ages[at]!) ? (
                  <span className="doubt">
                    <Caution /> {BEYOND}
                  </span>
                ) : null}
              </td>
              <td className="n">{years(ages[at]!)}</td>
              <td className="n">
                <From id={traceId.level(ages[at]!)}>{signed(level.median[at]!, decimals)}</From>
              </td>
              <td className="n">{range(level.lower95[at]!, level.upper95[at]!, decimals)}</td>
              <ConvergedCell {...curve.diagnostics} />
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** Points that disagree and ends on one point; that none does, with the rule. */
function Doubts({ curve }: { curve: Curve }) {
  const found = curveDoubts(curve);
  const swing = shortestSwing(curve);
  return (
    <>
      {each(changesInWords(curve), (text) => (
        <p>{text}.</p>
      ))}
      {swing === null ? null : <p>{swing}.</p>}
      {pointsThatDisagree(curve) === null ? (
        <p>
          <Tick /> <b>No point disagrees with the others</b>: none has {disagreementRule(curve)}.
        </p>
      ) : null}
      {each(found, (text) => (
        <p className="doubt">
          <Caution /> {text}
        </p>
      ))}
    </>
  );
}

/** Which sites the curve is of where there are several, where the others are, and points in no curve. */
function Sites({ results }: { results: Results }) {
  const sites = sitesOfCurve(results);
  const others = results.curves.filter(({ role }) => role !== 'headline');
  const left = inNoCurve(results);
  return (
    <>
      {sites.length < 2 ? null : <p>The points of {sitesNamed(sites)} share this curve, as was asked.</p>}
      {others.length === 0 ? null : (
        <p>
          This curve is of {sitesNamed(sites)}. Curves of their own:{' '}
          {others
            .map(({ id, sites: of }) => (sitesNamed(of) === id ? id : `${id} (${sitesNamed(of)})`))
            .join(', ')}
          , under Other sites.
        </p>
      )}
      {left.length === 0 ? null : (
        <p className="doubt">
          <Caution /> {left.length} accepted points of {sitesNamed(left.map(({ site }) => site))} are in no
          curve.
        </p>
      )}
    </>
  );
}

function Trust({ diagnostics }: { diagnostics: Curve['diagnostics'] }) {
  const draws = printed(Math.floor(Math.min(diagnostics.ess_bulk_min, diagnostics.ess_tail_min)), 0);
  const numbers = `largest R-hat ${printed(diagnostics.rhat_max, 3)}, at least ${draws} effective draws for every number`;
  return (
    <p style={{ marginTop: '7pt' }}>
      {diagnostics.converged ? (
        <>
          <Tick /> <b>Converged</b>: {numbers}.
        </>
      ) : (
        <span className="not-converged">
          <NotConverged /> Not converged: {numbers}. Do not quote these rates; a table below names what has
          not converged.
        </span>
      )}
    </p>
  );
}

const agesOf = (interval: Pick<Interval, 'older_cal_bp' | 'younger_cal_bp'>): string =>
  `${years(interval.older_cal_bp)} to ${years(interval.younger_cal_bp)} cal BP`;
