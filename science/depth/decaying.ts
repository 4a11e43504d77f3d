/**
 * Our depth model: entered length E(P) as a monotone random function that runs through the soundings within their errors.
 * Local recovery in a cell is the logistic of its mean (decaying shortening, ρ₀ and ℓ unknown) plus layers (an
 * Ornstein–Uhlenbeck process). Draws come from a particle filter down the hole; its slow twin (rejection) is in the test.
 * See docs/methods/depth.md.
 */
import type { RandomStream } from '@stillstand/science/base';
import { type Ways, waysOf } from './by-passing.ts';
import { cutGround, type Ground } from './cells.ts';
import { readingErrors } from './errors.ts';
import { type Filtered, runFilter } from './filter.ts';
import { lookAhead } from './look-ahead.ts';
import { type DecayingModel, type DepthInput, summaryOf } from './model.ts';
import { bendSds, deviates, runErrors } from './placing.ts';
import { type DepthSettings, depthDefaults } from './settings.ts';
import { shorteningAfter } from './shortening-after.ts';
import { LEVELS, worldsOf } from './worlds.ts';

/**
 * @param input metres; with no pin the result is the prior, and `diagnostics.pins` 0 says so
 * @param stream taken by name, so that the same seed gives the same hole whatever else was drawn
 * @throws RangeError for settings that are none
 */
export function depthModel(
  input: DepthInput,
  stream: RandomStream,
  settings: DepthSettings = depthDefaults,
): DecayingModel {
  const { layer_sd, cell_m, draws } = settings;
  if (!(layer_sd > 0 && cell_m > 0 && draws >= 2)) {
    throw new RangeError(`layer_sd ${layer_sd}, cell_m ${cell_m}, draws ${draws}: expected > 0, > 0, ≥ 2`);
  }
  const ground = cutGround(input, settings);
  const errors = readingErrors(input.registration);
  const worlds = worldsOf(ground, input.from_m, settings);
  const passing = stream.split('by-passed');
  const ways = ground.stands.flatMap(({ spell }) =>
    spell === null ? [] : [waysOf(spell, settings, passing)],
  );
  const ahead = lookAhead(ground, errors, worlds, ways);
  const filtered = runFilter(ground, errors, worlds, ways, ahead, draws, stream.split('filter'));
  const { edges: edges_m } = ground;
  const { entered: entered_m } = filtered;
  const { from_m } = input;
  return {
    kind: 'decaying',
    draws,
    from_m,
    penetration_m: from_m + edges_m[edges_m.length - 1]!,
    edges_m,
    entered_m,
    bend_sd: bendSds(edges_m, settings),
    layer_sd: Float32Array.from(filtered.world, (w) => worlds.levels[w % LEVELS]!.layer_sd),
    bends: deviates(draws, stream.split('within')),
    by_passed: {
      first: Int32Array.from(ground.stands.flatMap(({ spell }) => (spell === null ? [] : [spell.first]))),
      ways: ways.map((w) => (w === null ? null : { from: w.from, to: w.to })),
      taken: filtered.way,
    },
    runs: input.registration.flatMap((r) =>
      r.kind === 'run' ? [{ row_id: r.row_id, entered_bottom_m: r.entered_bottom_m }] : [],
    ),
    run_errors_m: runErrors(errors, filtered.deviates, draws, stream.split('runs')),
    tape_sigma_m: settings.tape_sigma_m,
    stream: stream.key,
    not_represented: notRepresented(edges_m, entered_m, draws, from_m, settings.not_represented),
    shortening: {
      ...shorteningAfter(ground, worlds, ahead, filtered, draws),
      by_passed_m: summaryOf(byPassed(ground, ways, filtered, draws)),
    },
    misfit: null,
    diagnostics: {
      pins: errors.pins,
      effective_draws_min: filtered.effectiveMin,
      ancestors: filtered.ancestors,
    },
  };
}

/** Ground that is by-passed in each draw, m. */
function byPassed(
  { stands }: Ground,
  ways: readonly (Ways | null)[],
  { way }: Filtered,
  draws: number,
): Float64Array {
  const lengths = stands.flatMap(({ spell }) => (spell === null ? [] : [spell.length_m]));
  return Float64Array.from({ length: draws }, (_, i) =>
    lengths.reduce((sum, length_m, s) => {
      const open_m = ways[s]?.open_m[way[i * lengths.length + s]!];
      return open_m === undefined ? sum : sum + length_m - open_m;
    }, 0),
  );
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
