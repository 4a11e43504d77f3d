/** The zero of a gauge on the campaign datum. */
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { inQuadrature } from '@stillstand/science/base';
import type { Complain } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known, Traced } from '../runner/step.ts';
import { tellZero } from '../words/tide.ts';
import type { ToDatum } from './elevation.ts';
import type { Heights } from './heights.ts';

/** 1 sigma of a gauge's zero whose error is not stated, m (common practice, no source). */
const ASSUMED_SIGMA_M = 0.05;

export interface GaugeZero {
  elevation_m: number;
  /** Of the zero itself, as stated or assumed, m. */
  sigma_m: number;
  /** Its shift to the campaign datum, with errors of its own. */
  to: Known<ToDatum>;
}

/** Null, with a problem, where nothing relates it; `until`: what comes of that, a sentence. */
export function gaugeZero(
  gauge: Row<'gauges'>,
  heights: Heights,
  complain: Complain<Row<'gauges'>>,
  until: string,
): GaugeZero | null {
  if (gauge.zero_elevation_m === null) {
    complain(
      gauge,
      'gauge-zero-not-stated',
      'zero_elevation_m',
      '',
      `elevation of its zero on ${heights.datum.label}`,
      `Enter it with its sigma. ${until}`,
      'note',
    );
    return null;
  }
  const to = heights.shift(gauge.datum);
  if (to === null) {
    complain(
      gauge,
      'no-datum-shift',
      'datum',
      gauge.datum ?? '',
      `a datum shift from ${gauge.datum} to ${heights.datum.label}`,
      `Add the shift between the two datums with its sigma. ${until}`,
      'warning',
    );
    return null;
  }
  if (gauge.sigma_m === null)
    complain(
      gauge,
      'gauge-zero-without-sigma',
      'sigma_m',
      '',
      '1 sigma of its zero',
      `Enter it. Until then ${ASSUMED_SIGMA_M} m is assumed (common practice, no source).`,
      'warning',
    );
  return {
    elevation_m: gauge.zero_elevation_m + to.value.shift_m,
    sigma_m: gauge.sigma_m ?? ASSUMED_SIGMA_M,
    to,
  };
}

/** 1 sigma on the campaign datum. */
export const zeroSigma = ({ sigma_m, to }: GaugeZero): number =>
  inQuadrature(sigma_m, ...to.value.shifts.map((shift) => shift.sigma_m));

/** The zero as a part of what is computed with it. */
export const tracedZero = (run: Runner, gauge: Row<'gauges'>, zero: GaugeZero): Traced =>
  run.part(
    traceId.gaugeZero(gauge.gauge),
    zero.elevation_m,
    tellZero(gauge.gauge, zero.elevation_m, zeroSigma(zero)),
    [run.row('gauges', gauge, `gauge ${gauge.gauge}`), zero.to],
  );
