/** The first cells of an interval's row: which it is, its mean rate, ±2σ, 95 %. */
import { traceId } from '@stillstand/campaign/results';
import { isReached, printed, range, signed, years } from '@stillstand/output/words';
import type { CurveResult } from '@stillstand/science/curve';
import { Unreached } from '../marks.tsx';
import { From } from '../where/from.tsx';

export function IntervalRate({
  curve,
  interval,
  decimals,
}: {
  curve: CurveResult;
  interval: CurveResult['intervals'][number];
  decimals: number;
}) {
  const rate = interval.rate_mm_yr;
  return (
    <>
      <td>
        <span className="nb">
          {years(interval.older_cal_bp)} to {years(interval.younger_cal_bp)}
        </span>{' '}
        {isReached(curve, interval) ? null : <Unreached />}
      </td>
      <td className="n">
        <From id={traceId.interval(interval)}>{signed(rate.mean, decimals)}</From>
      </td>
      <td className="pm">±{printed(2 * rate.sd, decimals)}</td>
      <td className="n">{range(rate.lower95, rate.upper95, decimals)}</td>
    </>
  );
}
