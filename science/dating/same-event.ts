/** Radiocarbon ages of different things of one event as one age (Ward & Wilson 1978, second case). */
import { square } from '@stillstand/science/base';
import {
  type Calibration,
  calibrate,
  type NotCalibrated,
  type RadiocarbonAge,
  trimmed,
} from './calibration.ts';
import { pooledAge } from './pooled-age.ts';
import { atYear, type YearlyCurve } from './yearly-curve.ts';

export interface OfEvent extends RadiocarbonAge {
  curve: YearlyCurve;
}

export interface SameEvent {
  kind: 'dated';
  age: Calibration;
  /** Of the ages less what their curves have at the likeliest year; each error with that of its curve and its ΔR. */
  chi_square: number;
  degrees: number;
  p: number;
}

/**
 * Those on one curve with one ΔR are pooled first, so that the errors of curve and ΔR enter once; the densities of different curves are
 * multiplied. `nothing_remains` where no year is left.
 * @throws RangeError for no age.
 */
export function sameEvent(ages: readonly OfEvent[]): SameEvent | NotCalibrated {
  if (ages.length === 0) throw new RangeError('sameEvent: no age; expected at least one');
  const alike = new Map<YearlyCurve, Map<string, OfEvent[]>>();
  for (const age of ages) {
    const ofCurve = alike.get(age.curve) ?? new Map<string, OfEvent[]>();
    const offset = `${age.offset_yr} ± ${age.offset_sd_yr}`;
    ofCurve.set(offset, [...(ofCurve.get(offset) ?? []), age]);
    alike.set(age.curve, ofCurve);
  }
  const densities: Calibration[] = [];
  for (const group of [...alike.values()].flatMap((of) => [...of.values()])) {
    const { c14_age, error_yr } = pooledAge(group);
    const date = calibrate({ ...group[0]!, c14_age, error_yr }, group[0]!.curve);
    if (date.kind !== 'calibrated') return date;
    densities.push(date);
  }
  const age = product(densities);
  if (age.kind !== 'calibrated') return age;
  const year = age.from_cal_bp + age.density.indexOf(Math.max(...age.density));
  const { chi_square, degrees, p } = pooledAge(
    ages.map((of) => {
      const at = atYear(of.curve, year)!;
      const variance = square(of.error_yr) + square(at.sigma_yr) + square(of.offset_sd_yr);
      return { c14_age: of.c14_age - of.offset_yr - at.c14_age, error_yr: Math.sqrt(variance) };
    }),
  );
  return { kind: 'dated', age, chi_square, degrees, p };
}

function product([first, ...others]: readonly Calibration[]): Calibration | NotCalibrated {
  if (others.length === 0) return first!;
  const { from_cal_bp } = first!;
  const density = first!.density.map((p, i) =>
    others.reduce((all, of) => all * (of.density[from_cal_bp + i - of.from_cal_bp] ?? 0), p),
  );
  if (!density.some((p) => p > 0)) {
    return { kind: 'nothing_remains', reason: 'no year is left by all ages of the event' };
  }
  return trimmed(density, from_cal_bp, Math.max(...[first!, ...others].map(({ truncated }) => truncated)));
}
