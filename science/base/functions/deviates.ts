/** Normal, exponential and gamma numbers from uniform ones, by exact methods on our own exp and log. */
import { exp, log } from './elementary.ts';

/** Ziggurat of 128 layers of equal area under exp(−x²/2), x > 0 (Marsaglia & Tsang 2000, J. Stat. Softw. 5(8)): edge of
 * the lowest layer and area of each. Layer and place in it come from separate draws (Doornik 2005). */
const LAYERS = 128;
const EDGE = 3.442619855899;
const AREA = 9.91256303526217e-3;
const X = layerEdges();
/** exp(−X²/2). */
const Y = X.map((x) => exp(-0.5 * x * x));

export function normalDeviate(bits: () => number, uniform: () => number): number {
  for (;;) {
    const word = bits();
    const layer = word & (LAYERS - 1);
    const place = uniform() * X[layer]!;
    const side = word & LAYERS ? 1 : -1;
    if (place < X[layer + 1]!) return side * place;
    if (layer === 0) return side * tailBeyond(EDGE, uniform);
    const low = Y[layer]!;
    if (low + uniform() * (Y[layer + 1]! - low) < exp(-0.5 * place * place)) return side * place;
  }
}

/** Normal beyond `edge` > 0 (Marsaglia 1964, Technometrics 6:101–102). */
function tailBeyond(edge: number, uniform: () => number): number {
  for (;;) {
    const beyond = -log(uniform()) / edge;
    if (-2 * log(uniform()) > beyond * beyond) return edge + beyond;
  }
}

/** X[0] is the width a rectangle of the base layer's area would have; X[1] = EDGE; X[LAYERS] = 0. */
function layerEdges(): Float64Array {
  const x = new Float64Array(LAYERS + 1);
  x[0] = AREA / exp(-0.5 * EDGE * EDGE);
  x[1] = EDGE;
  for (let i = 2; i < LAYERS; i++) {
    const edge = x[i - 1]!;
    x[i] = Math.sqrt(-2 * log(AREA / edge + exp(-0.5 * edge * edge)));
  }
  return x;
}

export function exponentialDeviate(uniform: () => number): number {
  return -log(uniform());
}

/** Marsaglia & Tsang 2000, ACM Trans. Math. Softw. 26:363–372; below shape 1 by their note: G(a) = G(a + 1)·U^(1/a). */
export function gammaDeviate(bits: () => number, uniform: () => number, shape: number): number {
  if (!(shape > 0 && shape < Infinity)) throw new RangeError(`gamma(${shape}): expected a shape above 0`);
  if (shape < 1) return gammaDeviate(bits, uniform, shape + 1) * exp(log(uniform()) / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const z = normalDeviate(bits, uniform);
    const root = 1 + c * z;
    if (root <= 0) continue;
    const v = root * root * root;
    if (log(uniform()) < 0.5 * z * z + d - d * v + d * log(v)) return d * v;
  }
}
