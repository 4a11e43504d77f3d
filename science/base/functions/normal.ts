/** The normal distribution: density, cumulative probability and its logarithm, quantile. */
import { exp, log, log1p } from './elementary.ts';
import { erf, scaledErfc } from './error-function.ts';

const ROOT_HALF = Math.SQRT1_2;
/** 1/√(2π), and ½ ln 2π. */
const PEAK = 0.3989422804014327;
const HALF_LOG_2PI = 0.9189385332046728;
/** |z| from which the scaled complement is used: 0.46875·√2 and a little. */
const MIDDLE = 0.67;

/** exp(−z²/2)/√(2π). */
export function normalDensity(z: number): number {
  return PEAK * exp(-0.5 * z * z);
}

/** Natural logarithm of the density of N(mean, sd²) at x; per unit of x. */
export function logNormalDensity(x: number, mean: number, sd: number): number {
  const z = (x - mean) / sd;
  return -0.5 * z * z - log(sd) - HALF_LOG_2PI;
}

/** P(Z ≤ z). Relative error below 1e-15 down to the smallest normal number (z ≈ −37.5). */
export function normalCdf(z: number): number {
  if (Math.abs(z) < MIDDLE) return 0.5 + 0.5 * erf(z * ROOT_HALF);
  if (z > 0) return 1 - upperTail(z);
  return upperTail(-z);
}

/** ln P(Z ≤ z), finite for every finite z above −1e154. Relative error below 1e-15 in both tails. */
export function normalLogCdf(z: number): number {
  if (z > MIDDLE) return log1p(-upperTail(z));
  if (z > -MIDDLE) return log(normalCdf(z));
  return -0.5 * z * z + log(0.5 * scaledErfc(-z * ROOT_HALF));
}

/** P(Z > z), z ≥ 0.67. z is cut at a sixteenth, whose square is exact: rounding z² itself would cost z²/2 ulps. */
function upperTail(z: number): number {
  if (z > 39) return 0;
  const cut = Math.floor(z * 16) / 16;
  const rest = (z - cut) * (z + cut);
  return 0.5 * scaledErfc(z * ROOT_HALF) * exp(-0.5 * cut * cut) * exp(-0.5 * rest);
}

/** z with P(Z ≤ z) = p: algorithm AS 241, PPND16 (Wichura 1988, Appl. Stat. 37:477–484), about 1e-16 relative.
 * −∞ at 0, ∞ at 1, NaN outside. */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (
      (q *
        (3.3871328727963665 +
          r *
            (133.14166789178438 +
              r *
                (1971.5909503065513 +
                  r *
                    (13731.69376550946 +
                      r *
                        (45921.95393154987 +
                          r * (67265.7709270087 + r * (33430.57558358813 + r * 2509.0809287301227)))))))) /
      (1 +
        r *
          (42.31333070160091 +
            r *
              (687.1870074920579 +
                r *
                  (5394.196021424751 +
                    r *
                      (21213.794301586597 +
                        r * (39307.89580009271 + r * (28729.085735721943 + r * 5226.495278852854)))))))
    );
  }
  const tail = q < 0 ? p : 1 - p;
  if (!(tail > 0)) return tail === 0 ? (q < 0 ? -Infinity : Infinity) : NaN;
  const root = Math.sqrt(-log(tail));
  let z: number;
  if (root <= 5) {
    const r = root - 1.6;
    z =
      (1.4234371107496835 +
        r *
          (4.630337846156546 +
            r *
              (5.769497221460691 +
                r *
                  (3.6478483247632045 +
                    r *
                      (1.2704582524523684 +
                        r *
                          (0.2417807251774506 + r * (0.022723844989269184 + r * 0.0007745450142783414))))))) /
      (1 +
        r *
          (2.053191626637759 +
            r *
              (1.6763848301838038 +
                r *
                  (0.6897673349851 +
                    r *
                      (0.14810397642748008 +
                        r *
                          (0.015198666563616457 +
                            r * (0.0005475938084995345 + r * 1.0507500716444169e-9)))))));
  } else {
    const r = root - 5;
    z =
      (6.657904643501103 +
        r *
          (5.463784911164114 +
            r *
              (1.7848265399172913 +
                r *
                  (0.29656057182850487 +
                    r *
                      (0.026532189526576124 +
                        r *
                          (0.0012426609473880784 +
                            r * (2.7115555687434876e-5 + r * 2.0103343992922881e-7))))))) /
      (1 +
        r *
          (0.599832206555888 +
            r *
              (0.1369298809227358 +
                r *
                  (0.014875361290850615 +
                    r *
                      (0.0007868691311456133 +
                        r *
                          (1.8463183175100548e-5 +
                            r * (1.421511758316446e-7 + r * 2.0442631033899397e-15)))))));
  }
  return q < 0 ? -z : z;
}
