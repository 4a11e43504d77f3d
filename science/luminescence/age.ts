/** Luminescence age: equivalent dose over dose rate. */
import { inQuadrature, square } from '@stillstand/science/base';
import type { Finding } from '@stillstand/science/dating';
import { errorOf, type Measured } from './measured.ts';

export interface LuminescenceAge {
  kind: 'age';
  /** Years before the sample was measured. */
  age_yr: number;
  /** 1 sigma: the whole, its own part, and the part that samples measured together share. */
  error_yr: number;
  random_yr: number;
  systematic_yr: number;
  /** Ends of the central 95 %; the older is null where the dose rate is not surely above 0. */
  younger95_yr: number;
  older95_yr: number | null;
}

export interface NotDated {
  kind: 'not_dated';
  findings: Finding[];
}

const Z95 = 1.959964;
const YR_PER_KA = 1000;

/**
 * Age = dose/rate in years before measurement. Errors to first order: the squares of the relative errors add, for each
 * part. The ends of 95 % are those of a ratio of two normal laws (Fieller 1954, J. R. Stat. Soc. B 16:175–185, from memory):
 * they stay right where the rate is poorly known and the age is skewed.
 * @param dose equivalent dose, Gy, with errors in Gy
 * @param rate dose rate, Gy/ka, with errors in Gy/ka
 */
export function luminescenceAge(dose: Measured, rate: Measured): LuminescenceAge | NotDated {
  const findings = [...unusable('dose', 'Gy', dose), ...unusable('rate', 'Gy/ka', rate)];
  if (findings.length > 0) return { kind: 'not_dated', findings };
  const age = (YR_PER_KA * dose.value) / rate.value;
  const part = (of: 'random' | 'systematic'): number =>
    age * inQuadrature(dose[of] / dose.value, rate[of] / rate.value);
  const random_yr = part('random');
  const systematic_yr = part('systematic');
  const [younger95, older95] = ratioEnds(dose, rate, Z95);
  return {
    kind: 'age',
    age_yr: age,
    error_yr: inQuadrature(random_yr, systematic_yr),
    random_yr,
    systematic_yr,
    younger95_yr: YR_PER_KA * younger95,
    older95_yr: older95 === null ? null : YR_PER_KA * older95,
  };
}

function unusable(of: string, unit: string, m: Measured): Finding[] {
  const error = errorOf(m);
  const found = `${m.value} ± ${error} ${unit}`;
  if (!(m.value > 0 && m.value < Infinity))
    return [
      {
        of,
        found,
        expected: 'a number above 0',
        fix: 'Correct it; a dose that may be 0 gives a maximum age only.',
      },
    ];
  if (!(error > 0 && error < Infinity))
    return [
      {
        of,
        found,
        expected: 'an error above 0, 1 sigma',
        fix: 'State the error the laboratory gave; no dose or rate is known exactly.',
      },
    ];
  return [];
}

/**
 * Where (a − t·b)² = z²(σa² + t²σb²): the ratios t, ka, that dose a and rate b do not exclude at z sigma; the older is null where
 * none is too old.
 */
export function ratioEnds(dose: Measured, rate: Measured, z: number): [number, number | null] {
  const [a, b] = [dose.value, rate.value];
  const squared = square(b) - square(z * errorOf(rate));
  const free = square(a) - square(z * errorOf(dose));
  // Never below 0 while b is above it: (ab)² − (a² − A)(b² − B) = a²B + b²A − AB with A, B the squares of z times sd.
  const root = Math.sqrt(Math.max(0, square(a * b) - squared * free));
  // (ab − root)/squared, written without the difference of two near numbers.
  const younger = Math.max(0, free / (a * b + root));
  return [younger, squared > 0 ? (a * b + root) / squared : null];
}
