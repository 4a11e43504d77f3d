/** Draws and their diagnostics as a result. */
import { bandOf, diagnosis, mean, summaryOf } from '@stillstand/science/base';
import { counted } from './axis.ts';
import type { Draws } from './draws.ts';
import type { Hole } from './hole.ts';
import type { AgeDepth } from './model.ts';
import { modesOf } from './modes.ts';
import type { Reported } from './reported.ts';
import { sectionAt } from './section.ts';

export function summariseAgeDepth(
  hole: Hole,
  draws: readonly Draws[],
  kept: number,
  sweeps: number,
  all: Reported,
): AgeDepth {
  return {
    kind: 'age_depth',
    depth_m: hole.grid.depth_m.slice(),
    age_cal_bp: bandOf(all.age),
    accumulation_mm_yr: bandOf(all.accumulation),
    clocks: hole.horizons.map(({ id }, i) => {
      const age_cal_bp = summaryOf(all.horizon[i]!);
      const { mean_cal_bp, sd_yr } = hole.dates[i]!;
      return {
        id,
        kind: 'date',
        age_cal_bp,
        alone_cal_bp: { mean: mean_cal_bp, sd: sd_yr },
        age_shift_sd: (age_cal_bp.mean - mean_cal_bp) / sd_yr,
        outlier_probability: mean(draws.map((d) => mean(d.outOfPlace[i]!.subarray(0, kept)))),
      };
    }),
    hiatuses: hole.breaks.map(({ id }, b) => ({ id, length_yr: summaryOf(all.gap[b]!) })),
    beds: hole.beds.flatMap(({ id }, b) =>
      hole.beds.findIndex((bed) => bed.id === id) === b ? [{ id, age_cal_bp: summaryOf(all.bed[b]!) }] : [],
    ),
    shared: [],
    modes: modesOf(hole, draws, kept),
    law: {
      accumulation_mm_yr: summaryOf(all.hole.accumulation),
      variation: summaryOf(all.hole.variation),
      persistence_m: summaryOf(all.hole.persistence),
    },
    agesAt: (depth_m) => agesAt(hole, draws, kept, depth_m),
    depthsAt: (depth_m) => depthsAt(hole, draws, kept, depth_m),
    diagnostics: {
      ...diagnosis(all.all),
      chains: draws.length,
      draws: kept,
      sweeps,
    },
  };
}

/** Chain after chain. */
function agesAt(
  hole: Hole,
  draws: readonly Draws[],
  kept: number,
  depth_m: number | Float64Array,
): Float64Array {
  if (typeof depth_m !== 'number') demandStates(hole, depth_m);
  const { sections, axis, edge_m, thickness_m, breaks } = hole;
  const ages = new Float64Array(draws.length * kept);
  draws.forEach((d, c) => {
    for (let k = 0; k < kept; k++) {
      const state = d.state[k]!;
      const depth = Math.max(0, typeof depth_m === 'number' ? depth_m : depth_m[state]!);
      // Rounding of the grid's own lowest depth is not below the bottom.
      const at = counted(axis, depth, state);
      if (!(at <= edge_m[sections]! * (1 + 1e-12))) {
        ages[c * kept + k] = NaN;
        continue;
      }
      const j = sectionAt(edge_m, at);
      const share = (at - edge_m[j]!) / thickness_m[j]!;
      const top = d.boundary_cal_bp[j]![k]!;
      let age = top + share * (d.boundary_cal_bp[j + 1]![k]! - top);
      for (let b = 0; b < breaks.length; b++)
        if (depth > breaks[b]!.below_ground_m[state]!) age += d.gap_yr[b]![k]!;
      ages[c * kept + k] = age;
    }
  });
  return ages;
}

function depthsAt(hole: Hole, draws: readonly Draws[], kept: number, depth_m: Float64Array): Float64Array {
  demandStates(hole, depth_m);
  return Float64Array.from(
    { length: draws.length * kept },
    (_, i) => depth_m[draws[Math.floor(i / kept)]!.state[i % kept]!]!,
  );
}

function demandStates({ states }: Hole, depth_m: Float64Array): void {
  if (depth_m.length !== states)
    throw new RangeError(
      `ages of a depth: ${depth_m.length} draws of it; expected ${states}, as of the horizons`,
    );
}
