/**
 * What the ground says, where the truth is known: holes of four sediments with event beds between. Bounds as first
 * written, before the first run: 95 % intervals hold 0.90 to 0.99 of the true ages where beds and sediments are said as
 * they are; with wrong names of the sediments at least 0.85. The gate takes the first.
 * What is left out costs width, not truth: with
 * `STILLSTAND_GROUND=all` also holes whose sediments, or whose beds as well, are not said, which are printed alone.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mean, quantiles, randomStream, standardDeviation } from '@stillstand/science/base';
import { type AgeDepthInput, ageDepth, ageDepthDefaults } from '@stillstand/science/dating';
import { partOrWhole } from '../bounds/part.ts';
import { type LayeredHole, layeredHole, USUAL_MM_YR } from './layered-hole.ts';

const HOLES = 40;
const SEED = 61;
/** Parts of a hole, at whose ends ages are asked for. */
const PARTS = 12;

interface Way {
  name: string;
  said: (input: LayeredHole['input']) => AgeDepthInput;
  least: number;
  most: number;
}

/** Each sediment taken for another: what gathers fastest for the slowest. */
const wrong = (usual: number): number => USUAL_MM_YR.at(-1 - USUAL_MM_YR.indexOf(usual as 1))!;

const ways: Way[] = [
  { name: 'beds and sediments as they are', said: (input) => input, least: 0.9, most: 0.99 },
  {
    name: 'wrong names of the sediments',
    said: (input) => ({
      ...input,
      layers: input.layers.map((layer) => ({ ...layer, usual_mm_yr: wrong(layer.usual_mm_yr) })),
    }),
    least: 0.85,
    most: 1,
  },
  { name: 'no sediments', said: ({ layers: _, ...input }) => input, least: 0, most: 1 },
  {
    name: 'no sediments and no beds',
    said: ({ layers: _, beds: __, ...input }) => input,
    least: 0,
    most: 1,
  },
];

const chosen = process.env['STILLSTAND_GROUND'] === 'all' ? ways : ways.slice(0, partOrWhole(1, 2));

for (const { name, said, least, most } of chosen) {
  test(`${name}: ${HOLES} holes, seed ${SEED}`, (t) => {
    const held = new Float64Array(HOLES);
    let width_yr = 0;
    let converged = 0;
    for (let n = 0; n < HOLES; n++) {
      const stream = randomStream(SEED).split(n);
      const { input, age_cal_bp } = layeredHole(stream);
      const result = ageDepth(said(input), ageDepthDefaults, stream.split('run'));
      assert(result.kind === 'age_depth');
      if (result.diagnostics.converged) converged++;
      for (let p = 1; p < PARTS; p++) {
        const depth_m = (input.bottom_m * p) / PARTS;
        const [low, high] = quantiles(result.agesAt(depth_m), [0.025, 0.975]) as [number, number];
        const age = age_cal_bp(depth_m);
        width_yr += (high - low) / (HOLES * (PARTS - 1));
        if (age >= low && age <= high) held[n]!++;
      }
    }
    const share = mean(held) / (PARTS - 1);
    const error = standardDeviation(held) / (PARTS - 1) / Math.sqrt(HOLES);
    t.diagnostic(
      `95 % hold ${share.toFixed(3)} ± ${error.toFixed(3)} of ${HOLES * (PARTS - 1)} ages, mean width ${width_yr.toFixed(0)} yr; converged ${converged} of ${HOLES}`,
    );
    assert(share >= least && share <= most, `95 % hold ${share}, ${least} to ${most} promised`);
  });
}
