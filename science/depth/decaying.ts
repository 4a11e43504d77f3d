/**
 * Our depth model: entered length E(P) as a monotone random function that runs through the soundings within their errors.
 * Local recovery in a cell is the logistic of its mean (decaying shortening, ρ₀ and ℓ unknown) plus layers (an
 * Ornstein–Uhlenbeck process). Draws come from a particle filter down the hole; its slow twin (rejection) is in the test.
 * See docs/methods/depth.md.
 */
import type { RandomStream } from '@stillstand/science/base';
import { cutGround, type Ground } from './cells.ts';
import { type ReadingErrors, readingErrors } from './errors.ts';
import { type Filtered, runFilter } from './filter.ts';
import { lookAhead } from './look-ahead.ts';
import { type DepthInput, type DepthModel, summaryOf } from './model.ts';
import { quantilesOf } from './order.ts';
import { shorteningPairs } from './pairs.ts';
import { placer } from './placing.ts';
import { type DepthSettings, depthDefaults } from './settings.ts';
import { shorteningAfter } from './shortening-after.ts';

/**
 * @param input metres; with no pin the result is the prior, and `diagnostics.pins` 0 says so
 * @param stream taken by name, so that the same seed gives the same hole whatever else was drawn
 * @throws RangeError for settings that are none
 */
export function depthModel(
  input: DepthInput,
  stream: RandomStream,
  settings: DepthSettings = depthDefaults,
): DepthModel {
  const { layer_sd, cell_m, draws } = settings;
  if (!(layer_sd > 0 && cell_m > 0 && draws >= 2)) {
    throw new RangeError(`layer_sd ${layer_sd}, cell_m ${cell_m}, draws ${draws}: expected > 0, > 0, ≥ 2`);
  }
  const ground = cutGround(input, settings);
  const errors = readingErrors(input.registration);
  const pairs = shorteningPairs(ground, input.from_m, settings);
  const ahead = lookAhead(ground, errors, pairs);
  const filtered = runFilter(ground, errors, pairs, ahead, draws, stream.split('filter'));
  const shortening = shorteningAfter(ground, pairs, filtered, draws);
  return modelOf(input, ground, errors, filtered, shortening, settings, stream);
}

function modelOf(
  input: DepthInput,
  ground: Ground,
  errors: ReadingErrors,
  filtered: Filtered,
  shortening: DepthModel['shortening'],
  settings: DepthSettings,
  stream: RandomStream,
): DepthModel {
  const { edges } = ground;
  const { entered } = filtered;
  const n = settings.draws;
  const count = edges.length;
  const place = placer(input, ground, errors, filtered, settings, stream);
  return {
    kind: 'decaying',
    draws: n,
    from_m: input.from_m,
    penetration_m: input.from_m + edges[count - 1]!,
    inSituDepth: (where) => {
      const draws = new Float64Array(n);
      const beyond = place(where, draws);
      return { ...summaryOf(draws), draws, beyond };
    },
    curve: (points = 101) => {
      const scratch = Float64Array.from({ length: n }, (_, i) => entered[i * count + count - 1]!);
      const [end] = quantilesOf(scratch, [0.5]);
      const entered_m = Float64Array.from({ length: points }, (_, i) => (end! * i) / Math.max(1, points - 1));
      const median_m = new Float64Array(points);
      const lower95_m = new Float64Array(points);
      const upper95_m = new Float64Array(points);
      for (let i = 0; i < points; i++) {
        place(entered_m[i]!, scratch);
        const [low, middle, high] = quantilesOf(scratch, [0.025, 0.5, 0.975]);
        // never back up, as the errors of two runs nearer than they could make it
        lower95_m[i] = Math.max(low!, i > 0 ? lower95_m[i - 1]! : low!);
        median_m[i] = Math.max(middle!, i > 0 ? median_m[i - 1]! : middle!);
        upper95_m[i] = Math.max(high!, i > 0 ? upper95_m[i - 1]! : high!);
      }
      return { entered_m, median_m, lower95_m, upper95_m };
    },
    not_represented: notRepresented(edges, entered, n, input.from_m, settings.not_represented),
    shortening,
    misfit: null,
    diagnostics: {
      pins: errors.pins,
      effective_draws_min: filtered.effectiveMin,
      ancestors: filtered.ancestors,
    },
  };
}

/** Cells that more likely than not let less than `least` of themselves in, joined where they touch. */
function notRepresented(
  edges: Float64Array,
  entered: Float32Array,
  draws: number,
  from_m: number,
  least: number,
): { top_m: number; bottom_m: number }[] {
  const found: { top_m: number; bottom_m: number }[] = [];
  const count = edges.length;
  for (let k = 1; k < count; k++) {
    const limit = least * (edges[k]! - edges[k - 1]!);
    let flat = 0;
    for (let i = 0; i < draws; i++) {
      if (entered[i * count + k]! - entered[i * count + k - 1]! < limit) flat++;
    }
    if (flat <= draws / 2) continue;
    const last = found[found.length - 1];
    if (last !== undefined && Math.abs(last.bottom_m - from_m - edges[k - 1]!) < 1e-9) {
      last.bottom_m = from_m + edges[k]!;
    } else found.push({ top_m: from_m + edges[k - 1]!, bottom_m: from_m + edges[k]! });
  }
  return found;
}
