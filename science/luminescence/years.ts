/** How probable each calendar year is by an equivalent dose and a dose rate. */
import { exp, square } from '@stillstand/science/base';
import { ageLikelihood, type Calibration } from '@stillstand/science/dating';
import { luminescenceAge, type NotDated, ratioEnds } from './age.ts';
import { errorOf, type Measured } from './measured.ts';

/** Ages farther than so many sigma are left off. */
const REACH_SD = 6;
/** A rate nearer to 0 than so many of its errors leaves a tail of old ages that no end can be given to. */
const LEAST_RATE_SD = 4;
/** Where the rate leaves no older end at the reach, ages up to so many times the age are kept. */
const OLDEST_TIMES = 10;
const YR_PER_KA = 1000;

/**
 * p(t) ∝ (1/s)·exp(−(dose − t·rate)²/2s²), s² = σ_dose² + t²σ_rate², for every t of 0 and more, all equally likely beforehand: the
 * likelihood of dose and rate, the true rate summed out with every one equally likely. Its ends are those of `luminescenceAge`,
 * longer on the older side than a normal law where the rate is poorly known. Errors are taken whole.
 * @param dose equivalent dose, Gy
 * @param rate dose rate, Gy/ka
 * @param counted_from_ce year of the measurement; null counts from 1950
 */
export function luminescenceYears(
  dose: Measured,
  rate: Measured,
  counted_from_ce: number | null,
): Calibration | NotDated {
  const age = luminescenceAge(dose, rate);
  if (age.kind !== 'age') return age;
  const [dose_sd, rate_sd] = [errorOf(dose), errorOf(rate)];
  const unsure = (expected: string): NotDated => ({
    kind: 'not_dated',
    findings: [{ of: 'rate', found: `${rate.value} ± ${rate_sd} Gy/ka`, expected, fix: 'Check the rate.' }],
  });
  if (rate.value < LEAST_RATE_SD * rate_sd) return unsure('a rate known to a quarter, 1 sigma');
  const [younger, older] = ratioEnds(dose, rate, REACH_SD);
  const oldest = older ?? (OLDEST_TIMES * (dose.value + REACH_SD * dose_sd)) / rate.value;
  const years = ageLikelihood(
    (yr) => {
      const t = yr / YR_PER_KA;
      const variance = square(dose_sd) + square(t * rate_sd);
      return exp((-0.5 * square(dose.value - t * rate.value)) / variance) / Math.sqrt(variance);
    },
    YR_PER_KA * younger,
    YR_PER_KA * oldest,
    counted_from_ce,
  );
  return years.kind === 'calibrated' ? years : unsure(`a rate that gives an age: ${years.reason}`);
}
