/** Where one more date would narrow the chosen rate most: through time, and for each claim that waits for a date. */
import {
  type CandidateDates,
  type CurveResult,
  isWorthDating,
  type RateWith,
} from '@stillstand/science/curve';
import { decimalsFor, printed, signed } from '../../parts/index.ts';
import { RATE_UNITS, type RateUnit } from './rate-unit.ts';
import { Unsettled } from './unsettled.tsx';
import './next-date.css';

/** Claims named here; the report has all. */
const NAMED = 3;

export function NextDate({
  next,
  curve,
  sd_mm_yr,
  unit,
  onPoint,
}: {
  next: CandidateDates;
  /** What it is estimated from. */
  curve: CurveResult;
  /** Of the rate as it is. */
  sd_mm_yr: number;
  unit: RateUnit;
  onPoint: (label: string) => void;
}) {
  const now = 2 * sd_mm_yr * RATE_UNITS[unit].per_mm_yr;
  const decimals = decimalsFor(now, 0, 3);
  const { best, usual, layers } = next;
  const rows = [{ point: null, with: best }, ...layers.slice(0, NAMED)].filter((row) =>
    isWorthDating(row.with),
  );
  return (
    <section className="next-date" aria-labelledby="next-date">
      <h2 id="next-date">
        What to date next <Unsettled curve={curve} isFinal />
      </h2>
      {rows.length === 0 ? (
        <p className="quiet">No one date would narrow it by as much as a fiftieth.</p>
      ) : (
        <>
          <Through next={next} />
          <table>
            <thead>
              <tr>
                <th scope="col">dating</th>
                <th scope="col" className="n">
                  cal BP
                </th>
                <th scope="col" className="n">
                  near, m
                </th>
                <th scope="col" className="n">
                  ± now, {unit}
                </th>
                <th scope="col" className="n">
                  ± then
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map(({ point, with: then }) => (
                <tr key={point ?? ''}>
                  <th scope="row">
                    {point === null ? (
                      'a new index point'
                    ) : (
                      <button type="button" onClick={() => onPoint(point)}>
                        {point}
                      </button>
                    )}
                  </th>
                  <td className="n">
                    {printed(then.age_cal_bp.mean, 0)}
                    {then.age_cal_bp.sd > 0 ? <i> ±{printed(2 * then.age_cal_bp.sd, 0)}</i> : null}
                  </td>
                  <td className="n">{signed(then.level_m.mean, 1)}</td>
                  <td className="n quiet">{printed(now, decimals)}</td>
                  <td className="n then">{printed(now * then.left, decimals)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="quiet">
            Estimated from the draws, for a point as good as half of those there are (height ±
            {printed(2 * usual.height_sigma_m, 2)} m, age ±{printed(2 * usual.age_sd_yr, 0)} yr).
          </p>
        </>
      )}
    </section>
  );
}

const HEIGHT = 30;

/** How much of ± a new point would take away, by its age; older at the left, as on the drawing. */
function Through({ next: { through, best } }: { next: CandidateDates }) {
  const ages = through.map((r) => r.age_cal_bp.mean);
  const [young, old] = [Math.min(...ages), Math.max(...ages)];
  const gain = (r: RateWith): number => 1 - r.left;
  const x = (age: number): number => (100 * (old - age)) / (old - young);
  const y = (r: RateWith): number => HEIGHT - (HEIGHT * gain(r)) / gain(best);
  const top = [...through]
    .sort((a, b) => b.age_cal_bp.mean - a.age_cal_bp.mean)
    .map((r) => `${x(r.age_cal_bp.mean).toFixed(2)} ${y(r).toFixed(2)}`);
  const words = `A new index point would narrow it most at ${printed(best.age_cal_bp.mean, 0)} cal BP, by ${printed(100 * gain(best), 0)} %.`;
  return (
    <figure className="through">
      <svg viewBox={`0 0 100 ${HEIGHT}`} preserveAspectRatio="none" role="img" aria-label={words}>
        <path className="area" d={`M0 ${HEIGHT}L${top.join('L')}L100 ${HEIGHT}Z`} />
        <path className="edge" d={`M${top.join('L')}`} />
        <path className="best" d={`M${x(best.age_cal_bp.mean).toFixed(2)} 0V${HEIGHT}`} />
      </svg>
      <figcaption aria-hidden="true">
        <span>{printed(old, 0)}</span>
        <span>
          narrows it by {printed(100 * gain(best), 0)} % at {printed(best.age_cal_bp.mean, 0)} cal BP
        </span>
        <span>{printed(young, 0)}</span>
      </figcaption>
    </figure>
  );
}
