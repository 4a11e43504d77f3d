/**
 * Likelihood of the heights given ages, σ and ℓ, with the level, the rate and the shared errors integrated out: one pass
 * of the Kalman filter over the ages, linear in their number.
 *
 * The level is flat at the first node, so after its observation (y, s²) the state is N((y, 0, 0), diag(s², 1, 1)). Beside
 * the column of heights the filter carries one column of loadings for each shared error; all have the same gain. With
 * innovations e (heights), E (loadings) and their variances F, the shared errors b ~ N(0, I) given everything are normal
 * with precision A = I + Σ EEᵀ/F and mean A⁻¹c, c = Σ E·e/F, and
 *   log p = −½ Σ (log 2πF + e²/F) + ½ cᵀA⁻¹c − ½ log|A|        (generalised least squares; Rosenberg 1973, Ann. Econ.
 * Soc. Meas. 2:397–428).
 */
import { log, type RandomStream, truncatedNormal } from '@stillstand/science/base';
import type { Observations } from './observations.ts';
import { STEP } from './rate-process.ts';
import { type Rates, stepOver } from './rates.ts';

const LOG_2PI = 1.8378770664093453;

export interface LikelihoodWork {
  step: Float64Array;
  /** State columns: heights, then each shared error; three numbers each. */
  column: Float64Array;
  innovation: Float64Array;
  /** Lower Cholesky factor of A, groups × groups. */
  factor: Float64Array;
  /** L⁻¹c. */
  solved: Float64Array;
}

export function likelihoodWork(groups: number): LikelihoodWork {
  return {
    step: new Float64Array(STEP),
    column: new Float64Array(3 * (groups + 1)),
    innovation: new Float64Array(groups + 1),
    factor: new Float64Array(groups * groups),
    solved: new Float64Array(groups),
  };
}

/** Natural logarithm of the marginal likelihood of the heights, by node, with the first `groups` shared errors integrated
 * out: all of them for `o.raw_m`, none for `o.height_m`. `o.order` ascending. Leaves in `work` what `drawSharedErrors`
 * needs. */
export function logLikelihood(
  o: Observations,
  height_m: Float64Array,
  groups: number,
  rates: Rates,
  work: LikelihoodWork,
): number {
  const { count, order, age_ka, variance_m2, loading_m } = o;
  const { step, column, innovation, factor, solved } = work;
  const columns = groups + 1;
  factor.fill(0);
  solved.fill(0);
  for (let g = 0; g < groups; g++) factor[g * groups + g] = 1;

  let node = order[0]!;
  column.fill(0);
  column[0] = height_m[node]!;
  for (let g = 0; g < groups; g++) column[3 * (g + 1)] = loading_m[g * count + node]!;
  let p00 = variance_m2[node]!;
  let p01 = 0;
  let p02 = 0;
  let p11 = 1;
  let p12 = 0;
  let p22 = 1;
  let squares = 0;
  let logs = 0;
  let product = 1;
  let age = age_ka[node]!;
  for (let k = 1; k < order.length; k++) {
    node = order[k]!;
    stepOver(rates, age, age_ka[node]!, step);
    age = age_ka[node]!;
    const a = step[0]!;
    const b = step[1]!;
    const p = step[2]!;
    const q = step[3]!;
    const w = step[4]!;
    const x00 = p00 - a * p01 - b * p02;
    const x01 = p01 - a * p11 - b * p12;
    const x02 = p02 - a * p12 - b * p22;
    const x11 = p * p11 + q * p12;
    const x12 = p * p12 + q * p22;
    const x21 = w * p12 - q * p11;
    const x22 = w * p22 - q * p12;
    p00 = x00 - a * x01 - b * x02 + step[5]!;
    p01 = p * x01 + q * x02 + step[6]!;
    p02 = w * x02 - q * x01 + step[7]!;
    p11 = p * x11 + q * x12 + step[8]!;
    p12 = w * x12 - q * x11 + step[9]!;
    p22 = w * x22 - q * x21 + step[10]!;
    const f = p00 + variance_m2[node]!;
    const inverse = 1 / f;
    const k0 = p00 * inverse;
    const k1 = p01 * inverse;
    const k2 = p02 * inverse;
    for (let c = 0; c < columns; c++) {
      const i = 3 * c;
      const m1 = column[i + 1]!;
      const m2 = column[i + 2]!;
      const m0 = column[i]! - a * m1 - b * m2;
      const e = (c === 0 ? height_m[node]! : loading_m[(c - 1) * count + node]!) - m0;
      innovation[c] = e;
      column[i] = m0 + k0 * e;
      column[i + 1] = p * m1 + q * m2 + k1 * e;
      column[i + 2] = w * m2 - q * m1 + k2 * e;
    }
    const e0 = innovation[0]!;
    squares += e0 * e0 * inverse;
    for (let g = 0; g < groups; g++) {
      const eg = innovation[g + 1]! * inverse;
      if (eg === 0) continue;
      solved[g] = solved[g]! + eg * e0;
      for (let h = 0; h <= g; h++) factor[g * groups + h] = factor[g * groups + h]! + eg * innovation[h + 1]!;
    }
    p22 -= k2 * p02;
    p12 -= k1 * p02;
    p11 -= k1 * p01;
    p02 -= k0 * p02;
    p01 -= k0 * p01;
    p00 -= k0 * p00;
    // One logarithm for many nodes.
    product *= f;
    if (product > 1e200 || product < 1e-200) {
      logs += log(product);
      product = 1;
    }
  }
  logs += log(product);
  return -0.5 * ((order.length - 1) * LOG_2PI + logs + squares) + sharedTerm(groups, factor, solved);
}

/** ½ cᵀA⁻¹c − ½ log|A|; factorises A and solves for c in place. */
function sharedTerm(groups: number, a: Float64Array, c: Float64Array): number {
  let determinant = 1;
  let squares = 0;
  for (let i = 0; i < groups; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i * groups + j]!;
      for (let k = 0; k < j; k++) sum -= a[i * groups + k]! * a[j * groups + k]!;
      a[i * groups + j] = i === j ? Math.sqrt(sum) : sum / a[j * groups + j]!;
    }
    let sum = c[i]!;
    for (let k = 0; k < i; k++) sum -= a[i * groups + k]! * c[k]!;
    c[i] = sum / a[i * groups + i]!;
    squares += c[i]! * c[i]!;
    determinant *= a[i * groups + i]!;
  }
  return groups === 0 ? 0 : 0.5 * squares - log(determinant);
}

/**
 * Draws the shared errors given heights, ages, σ and ℓ of the last call of `logLikelihood` with this `work`:
 * b = L⁻ᵀ(L⁻¹c + ε). The last `positive` of them are never below 0: each is drawn given the others of these, all before
 * them integrated out (their precision is the last block of LLᵀ without what comes before, so L's own last block), then the
 * rest given them.
 */
export function drawSharedErrors(
  groups: number,
  positive: number,
  work: LikelihoodWork,
  stream: RandomStream,
  b: Float64Array,
): void {
  const l = work.factor;
  const first = groups - positive;
  for (let i = groups - 1; i >= first; i--) {
    // Of ½|Lᵀb − L⁻¹c|² over the rows of the block, those in which b_i stands: precision and linear term.
    let precision = 0;
    let linear = 0;
    for (let row = first; row <= i; row++) {
      let rest = work.solved[row]!;
      for (let k = row; k < groups; k++) if (k !== i) rest -= l[k * groups + row]! * b[k]!;
      const own = l[i * groups + row]!;
      precision += own * own;
      linear += own * rest;
    }
    b[i] = truncatedNormal(stream, linear / precision, 1 / Math.sqrt(precision), 0, Infinity);
  }
  for (let i = first - 1; i >= 0; i--) {
    let sum = work.solved[i]! + stream.normal();
    for (let k = i + 1; k < groups; k++) sum -= l[k * groups + i]! * b[k]!;
    b[i] = sum / l[i * groups + i]!;
  }
}
