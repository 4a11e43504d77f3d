/** How sensitive the chosen rate is: to single points, to the prior, and to the points that may have settled. */
import { traceId } from '@stillstand/campaign/results';
import type { CurveResult, IntervalRate } from '@stillstand/science/curve';
import { decimalsFor, printed, signed, Traced } from '../../parts/index.ts';
import type { Interval } from './interval.ts';
import { RATE_UNITS, type RateUnit } from './rate-unit.ts';
import { Unsettled } from './unsettled.tsx';
import './sensitivity.css';

/** So many points are ranked here; all of them in the table below. */
const RANKED = 5;
/** Less is not told from the noise of the draws. */
const LEAST = 0.01;

export type Influences = readonly { id: string; growth: number }[];

/** The most influential points, the first first. */
export const mostInfluential = (influences: Influences): Influences =>
  influences.filter((point) => point.growth >= LEAST).slice(0, RANKED);

export function Influence({
  influences,
  curve,
  isFinal,
  onPoint,
}: {
  influences: Influences;
  curve: CurveResult;
  isFinal: boolean;
  onPoint: (label: string) => void;
}) {
  const shown = mostInfluential(influences);
  const most = shown[0]?.growth ?? 1;
  return (
    <section className="influence" aria-labelledby="influence">
      <h2 id="influence">
        Influence of points <Unsettled curve={curve} isFinal={isFinal} />
      </h2>
      <p className="heads">
        <span>point</span>
        <span>increase in 2σ without it, %</span>
      </p>
      {shown.length === 0 ? <p className="quiet">No single point widens it by as much as 1 %.</p> : null}
      <ol>
        {shown.map(({ id, growth }) => (
          <li key={id}>
            <button type="button" onClick={() => onPoint(id)}>
              <span className="id">{id}</span>
              <span className="bar" aria-hidden="true">
                <i style={{ width: `${(100 * growth) / most}%` }} />
              </span>
              <span className="n">+{printed(100 * growth, 0)}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

export function Sensitivity({
  curve,
  rate,
  interval,
  unit,
  hasIntercalated,
  isFinal,
}: {
  curve: CurveResult;
  rate: IntervalRate;
  interval: Interval;
  unit: RateUnit;
  hasIntercalated: boolean;
  isFinal: boolean;
}) {
  const k = RATE_UNITS[unit].per_mm_yr;
  const { mean, sd } = rate.rate_mm_yr;
  const decimals = decimalsFor(2 * sd * k, 0, 3);
  const reported = curve.intervals.find(
    (each) => each.older_cal_bp === interval.older_cal_bp && each.younger_cal_bp === interval.younger_cal_bp,
  );
  const rows: { what: string; mean: number | null; why: string }[] = [
    {
      what: 'prior halved',
      mean: rate.prior_halved_mm_yr ?? reported?.prior_halved_mm_yr ?? null,
      why: 'put it in the report to compute it',
    },
    {
      what: 'prior doubled',
      mean: rate.prior_doubled_mm_yr ?? reported?.prior_doubled_mm_yr ?? null,
      why: 'put it in the report to compute it',
    },
    ...(curve.settings.outliers === null
      ? []
      : [
          {
            what: 'no outliers',
            mean: reported?.no_outliers_mm_yr ?? null,
            why: reported === undefined ? 'put it in the report to compute it' : 'being computed',
          },
        ]),
    ...(curve.burials.length === 0
      ? []
      : [
          {
            what: 'no burial',
            mean: reported?.no_burial_mm_yr ?? null,
            why: reported === undefined ? 'put it in the report to compute it' : 'being computed',
          },
        ]),
    ...(hasIntercalated
      ? [
          {
            what: 'intercalated left out',
            mean: reported?.without_intercalated_mm_yr ?? null,
            why: reported === undefined ? 'put it in the report to compute it' : 'being computed',
          },
        ]
      : []),
  ];
  return (
    <section className="sensitivity" aria-labelledby="sensitivity">
      <h2 id="sensitivity">
        Sensitivity <Unsettled curve={curve} isFinal={isFinal} />
      </h2>
      <table>
        <thead>
          <tr>
            <th scope="col">instead</th>
            <th scope="col" className="n">
              {unit}
            </th>
            <th scope="col" className="n">
              change ÷ 2σ
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.what}>
              <th scope="row">{row.what}</th>
              {row.mean === null ? (
                <td colSpan={2} className="n quiet why">
                  {row.why}
                </td>
              ) : (
                <>
                  <td className="n">
                    {reported === undefined ? (
                      signed(k * row.mean, decimals)
                    ) : (
                      <Traced id={traceId.intervalUnder(interval, row.what)}>
                        {signed(k * row.mean, decimals)}
                      </Traced>
                    )}
                  </td>
                  <td className="n quiet">{signed((row.mean - mean) / (2 * sd), 1)}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet prior">
        The prior: the rate’s sd half-normal with scale{' '}
        {printed(curve.settings.priors.rate_sd_scale_mm_yr, 1)} mm/yr.
      </p>
    </section>
  );
}
