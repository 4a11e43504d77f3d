import type { TraceId } from '@stillstand/campaign/results';
import { decimalsFor, printed, signed } from '@stillstand/output/words';
import './quantity.css';
import { Traced } from './traced.tsx';

/**
 * A number with its ± (2 sigma, which the page says once) and unit; opens its trace where it has an id. Value and ±
 * share their decimals, which follow the uncertainty.
 */
export function Quantity({
  value,
  sigma = null,
  unit = '',
  decimals,
  sign = false,
  assumed = false,
  id,
}: {
  value: number | null;
  /** 1 sigma; null where it has none. */
  sigma?: number | null;
  unit?: string;
  /** Where there is no sigma to follow, or to line up a column. */
  decimals?: number;
  /** Sign always shown: elevations, sea level, rates. */
  sign?: boolean;
  assumed?: boolean;
  /** Name in the trace, e.g. `point:P7/rsl`. */
  id?: TraceId;
}) {
  const places = decimals ?? decimalsFor(sigma === null ? null : 2 * sigma, 2);
  const words = (
    <span className={assumed ? 'quantity assumed' : 'quantity'}>
      <span className="value">{(sign ? signed : printed)(value, places)}</span>
      {unit === '' || value === null ? null : <span className="unit">{unit}</span>}
      {sigma === null || value === null ? null : <span className="pm">±{printed(2 * sigma, places)}</span>}
    </span>
  );
  return id === undefined || value === null ? words : <Traced id={id}>{words}</Traced>;
}
