/** What a date says of a layer it does not date but only bounds. */
import { type Calibration, type NotCalibrated, trimmed } from './calibration.ts';

/**
 * Distribution of a layer known to be younger (`maximum` age: reworked wood, a root's parent) or older (`minimum` age)
 * than the dated thing: every year from `youngest` to `oldest` (cal BP, whole) equally likely beforehand, so
 * p(layer = a) ∝ P(date > a) for a maximum, P(date < a) for a minimum; the date's own year counts half.
 * `nothing_remains` where the date leaves no year of the range.
 * @throws RangeError unless youngest ≤ oldest are finite.
 */
export function ageBound(
  calibration: Calibration,
  role: 'maximum' | 'minimum',
  youngest: number,
  oldest: number,
): Calibration | NotCalibrated {
  if (!(Number.isFinite(youngest) && Number.isFinite(oldest) && youngest <= oldest)) {
    throw new RangeError(`ageBound: from ${youngest} to ${oldest} cal BP; expected youngest ≤ oldest`);
  }
  const first = Math.ceil(youngest);
  const years = Math.floor(oldest) - first + 1;
  const density = new Float64Array(Math.max(0, years));
  let younger = 0; // P(date younger than this year)
  const date = calibration.density;
  const before = first - calibration.from_cal_bp;
  for (let i = 0; i < Math.min(before, date.length); i++) younger += date[i]!;
  let total = 0;
  for (let k = 0; k < years; k++) {
    const same = date[before + k] ?? 0;
    const share = younger + 0.5 * same;
    density[k] = Math.max(0, role === 'minimum' ? share : 1 - share);
    // Sums of a density that ends leave rounding dust where there is certainty.
    if (density[k]! < 1e-12) density[k] = 0;
    total += density[k]!;
    younger += same;
  }
  if (!(total > 0)) {
    return {
      kind: 'nothing_remains',
      reason: `a ${role} age of about ${Math.round(calibration.median_cal_bp)} cal BP leaves no year between ${youngest} and ${oldest} cal BP`,
    };
  }
  return trimmed(density, first, 0);
}
