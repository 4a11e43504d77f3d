/**
 * Where a chain starts: an age is drawn from every date, the longest succession of them that grows downward is kept
 * (Fredman 1975, Discrete Math. 11:29–35, by plain comparison), and ages run straight between those. Each chain draws its
 * own, so chains start as far apart as the dates allow.
 */
import { exp, log, type RandomStream, sampleGrid } from '@stillstand/science/base';
import { emptyHistory, type History, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { drawLaw, priorMean } from './law.ts';

interface Knot {
  depth_m: number;
  age_cal_bp: number;
}

export function startHistory(hole: Hole, stream: RandomStream): History {
  const h = emptyHistory(hole, drawLaw(hole.settings, stream));
  h.state = stream.integer(hole.states);
  const drawn = hole.horizons
    .map(({ depth_m, age }): Knot => {
      const { from_cal_bp, density } = age;
      const age_cal_bp = sampleGrid({ from: from_cal_bp, step: 1, density })(stream.uniform());
      return { depth_m: Math.max(0, depth_m[h.state]!), age_cal_bp };
    })
    .sort((a, b) => a.depth_m - b.depth_m);
  const { surface, settings, sections, edge_m, thickness_m } = hole;
  const usual = exp(priorMean(settings));
  const knots = longestSuccession(
    surface === null ? drawn : drawn.filter((k) => k.age_cal_bp > surface.age_cal_bp && k.depth_m > 0),
  );
  const first = knots[0] ?? {
    depth_m: thickness_m[0]!,
    age_cal_bp: (surface?.age_cal_bp ?? 0) + thickness_m[0]! * usual,
  };
  h.ground_cal_bp =
    surface?.age_cal_bp ??
    Math.max(
      settings.age_range_cal_bp.youngest,
      Math.min(settings.age_range_cal_bp.oldest, first.age_cal_bp - usual * first.depth_m),
    );
  const all = [{ depth_m: 0, age_cal_bp: h.ground_cal_bp }, ...knots];
  const ageAt = (depth: number): number => {
    const k = all.findIndex((knot) => knot.depth_m >= depth);
    if (k === 0) return all[0]!.age_cal_bp;
    const above = k < 0 ? all.at(-1)! : all[k - 1]!;
    const below = k < 0 ? { depth_m: above.depth_m + 1, age_cal_bp: above.age_cal_bp + usual } : all[k]!;
    const share = (depth - above.depth_m) / (below.depth_m - above.depth_m);
    return above.age_cal_bp + share * (below.age_cal_bp - above.age_cal_bp);
  };
  for (let j = 0; j < sections; j++) {
    const yr = ageAt(edge_m[j + 1]!) - ageAt(edge_m[j]!);
    h.u[j] = log(Math.max(0.1, yr) / thickness_m[j]!);
  }
  for (let b = 0; b < h.gap_yr.length; b++) h.gap_yr[b] = 0.02 * settings.gap_mean_yr * stream.exponential();
  tell(h);
  return h;
}

/** Strictly deeper and older from one to the next. */
function longestSuccession(sorted: readonly Knot[]): Knot[] {
  const length = sorted.map(() => 1);
  const before = sorted.map(() => -1);
  let best = -1;
  for (let k = 0; k < sorted.length; k++) {
    for (let j = 0; j < k; j++) {
      if (
        sorted[j]!.age_cal_bp < sorted[k]!.age_cal_bp &&
        sorted[j]!.depth_m < sorted[k]!.depth_m &&
        length[j]! + 1 > length[k]!
      ) {
        length[k] = length[j]! + 1;
        before[k] = j;
      }
    }
    if (best < 0 || length[k]! > length[best]!) best = k;
  }
  const knots: Knot[] = [];
  for (let k = best; k >= 0; k = before[k]!) knots.unshift(sorted[k]!);
  return knots;
}
