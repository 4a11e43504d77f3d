/** The age of something of which only the order is known: younger than one dated thing, older than another. */
import { type Calibration, type NotCalibrated, trimmed } from './calibration.ts';

type Density = Pick<Calibration, 'from_cal_bp' | 'density'>;

/**
 * Given the two ages, every year between them is equally likely, both included: p(t) = Σ p(older = a) p(younger = b)/(a − b + 1)
 * over a ≥ t ≥ b. The two are taken as independent, and as in order; where they can hardly be (probability below
 * 0.025), `nothing_remains`.
 */
export function ageBetween(older: Density, younger: Density): Calibration | NotCalibrated {
  const first = younger.from_cal_bp;
  const last = older.from_cal_bp + older.density.length - 1;
  const starts = new Float64Array(Math.max(0, last - first) + 2);
  let ordered = 0;
  for (const [i, pOlder] of older.density.entries()) {
    const a = older.from_cal_bp + i;
    for (let k = 0; k < younger.density.length; k++) {
      const b = first + k;
      if (b > a) break;
      const p = pOlder * younger.density[k]!;
      ordered += p;
      // A level stretch from b to a, as what it adds at its start and takes away after its end.
      starts[k] = starts[k]! + p / (a - b + 1);
      starts[a - first + 1] = starts[a - first + 1]! - p / (a - b + 1);
    }
  }
  if (!(ordered >= LEAST)) {
    return {
      kind: 'nothing_remains',
      reason: `the older is the older with probability ${ordered.toPrecision(2)}; expected at least ${LEAST}`,
    };
  }
  const density = new Float64Array(last - first + 1);
  let level = 0;
  for (let i = 0; i < density.length; i++) {
    level += starts[i]!;
    // Differences leave rounding dust where there is nothing.
    density[i] = Math.max(0, level);
  }
  return trimmed(density, first, 0);
}

const LEAST = 0.025;
