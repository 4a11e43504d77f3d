/** The rig's figures against published ones, each with its source; the rest says so. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pipeSizes } from '@stillstand/published/vocabularies';
import { FOOT_M } from '@stillstand/science/base';
import {
  bore_mm,
  CAUTIONS,
  CRITICAL_GRADIENTS,
  criticalGradient,
  FRICTION,
  hvorslevRatios,
  lineLoad,
  massPerMetre,
  OVERHEAD_CLEARANCES,
  overheadClearance,
  reevingEfficiency,
  SHEAVE_K,
  shaftFriction_kn,
  USUAL_RUN_M,
} from '@stillstand/science/rig';

const near = (a: number, b: number, tolerance: number, what: string) =>
  assert.ok(Math.abs(a - b) <= tolerance + 1e-12, `${what}: ${a} is not ${b}`);

const PARTS = [2, 4, 6, 8, 10, 12, 14, 16];

// Formula: API RP 9B, 14th ed. 2018, (K^N − 1)/(K^S·N·(K − 1)). N = S = 10 and 16 at K 1.04 are printed in it; K 1.09
// from memory; the other entries of the table were computed apart from this code and rounded to three figures.
const SHEAVES = {
  roller: {
    efficiency: [0.943, 0.907, 0.874, 0.842, 0.811, 0.782, 0.755, 0.728],
    factor: [0.53, 0.275, 0.191, 0.149, 0.123, 0.107, 0.095, 0.086],
  },
  plain: {
    efficiency: [0.88, 0.81, 0.748, 0.692, 0.642, 0.597, 0.556, 0.52],
    factor: [0.568, 0.309, 0.223, 0.181, 0.156, 0.14, 0.128, 0.12],
  },
};

test('sheaves: efficiency and fast-line factor to three figures', () => {
  for (const bearing of ['roller', 'plain'] as const) {
    PARTS.forEach((parts, i) => {
      const efficiency = reevingEfficiency(parts, parts, SHEAVE_K[bearing]);
      const line = lineLoad(1, { parts, sheaves: parts, bearing });
      near(efficiency, SHEAVES[bearing].efficiency[i]!, 5.1e-4, `${bearing} ${parts} efficiency`);
      near(line.fast_line_kn, SHEAVES[bearing].factor[i]!, 5.1e-4, `${bearing} ${parts} factor`);
    });
  }
});

// A well engineers' notebook of 2001 citing API RP 9B: pull over (load/N), fast and dead line, roller sheaves.
test('line pull, fast and dead line over load/N: the published table to three decimals', () => {
  const fast = [1.06, 1.102, 1.145, 1.188, 1.233, 1.279];
  const dead = [0.98, 0.942, 0.905, 0.868, 0.833, 0.799];
  PARTS.slice(0, 6).forEach((parts, i) => {
    const line = lineLoad(1, { parts, sheaves: parts, bearing: 'roller' });
    near(line.fast_line_kn * parts, fast[i]!, 5e-4, `${parts} fast`);
    near(line.dead_line_kn * parts, dead[i]!, 5e-4, `${parts} dead`);
  });
});

// API RP 9B, 14th ed. 2018 with Addendum 1 (2020): ten lines, roller bearings, 400 000 lb on the hook, rope of 192 000 lb.
test('the published worked load: factor 0.123, 49 200 lb on the fast line, design factor 3.9', () => {
  const LBF_KN = 0.0044482216152605;
  const line = lineLoad(400_000 * LBF_KN, { parts: 10, sheaves: 10, bearing: 'roller' });
  const fast_lb = line.fast_line_kn / LBF_KN;
  near(fast_lb / 400_000, 0.123, 5e-4, 'factor');
  // the example multiplies by the rounded factor: 0.123 × 400 000
  near(fast_lb, 49_200, 200, 'fast line');
  near(192_000 / fast_lb, 3.9, 0.05, 'design factor');
});

// Ratios: Hvorslev 1949, US Army WES. 51/48 mm: a published Shelby tube example, 12.9 %.
test('Hvorslev: a 51/48 mm tube has an area ratio of 12.9 %, plain 2 in schedule 40 pipe 32 %', () => {
  const tube = (outside_mm: number, edge_mm: number) =>
    hvorslevRatios({ outside_mm, edge_mm, inside_mm: edge_mm, tube_mm: outside_mm });
  near(tube(51, 48).area_ratio, 0.129, 5e-4, 'Shelby tube');
  const two = pipeSizes.find((p) => p.nps === '2' && p.schedule === 40)!;
  near(
    tube(two.outside_diameter_mm, bore_mm({ ...two, mass_kg_per_m: null })).area_ratio,
    0.32,
    5e-3,
    '2 in pipe',
  );
  // clearances by hand: edge 72, inside 73, shoe 77, tube 76 mm
  const shoe = hvorslevRatios({ outside_mm: 77, edge_mm: 72, inside_mm: 73, tube_mm: 76 });
  near(shoe.inside_clearance, 1 / 72, 1e-12, 'inside clearance');
  near(shoe.outside_clearance, 1 / 76, 1e-12, 'outside clearance');
});

// Terzaghi & Peck 1948, from memory; the organic case by the same formula.
test('critical gradients: 1.000, 0.825 and, organic, 0.100; what is not known is organic', () => {
  near(criticalGradient(2.65, 0.65), 1, 5e-4, 'sand');
  near(criticalGradient(2.65, 1), 0.825, 5e-4, 'loose sand');
  near(criticalGradient(1.6, 5), 0.1, 5e-4, 'organic');
  assert.equal(Math.min(...Object.values(CRITICAL_GRADIENTS)), CRITICAL_GRADIENTS.organic);
});

// ASME B36.10M-2018: masses of the standard's table for plain ends, 7850 kg/m³ (sizes from memory of it).
test('pipe masses of ASME B36.10M to 0.01 kg/m', () => {
  for (const pipe of pipeSizes) {
    near(
      massPerMetre({ ...pipe, mass_kg_per_m: null }),
      pipe.mass_kg_per_m,
      0.0051,
      `${pipe.nps} ${pipe.schedule}`,
    );
  }
});

// 29 CFR 1926.1408 Table A.
test('overhead lines: 10, 15, 20, 25, 35, 45 ft; in metres to the centimetre; above 1000 kV and unknown: its owner says', () => {
  const table = [
    [50, 10, 3.05],
    [200, 15, 4.57],
    [350, 20, 6.1],
    [500, 25, 7.62],
    [750, 35, 10.67],
    [1000, 45, 13.72],
  ] as const;
  assert.equal(OVERHEAD_CLEARANCES.length, table.length);
  table.forEach(([kv, feet, m], i) => {
    near(overheadClearance(kv).distance_m!, feet * FOOT_M, 1e-12, `${kv} kV`);
    near(overheadClearance(kv).distance_m!, m, 0.005, `${kv} kV`);
    // just above: the next row
    assert.equal(overheadClearance(kv + 0.1).distance_m, i < 5 ? table[i + 1]![1] * FOOT_M : null);
  });
  assert.equal(overheadClearance(null).distance_m, null);
  assert.match(overheadClearance(11).caution, /law.*come first/);
});

// β from memory: values vary widely, so the estimate must.
test('friction: πD∫βσ′v dz, its range as wide as what is known', () => {
  const f = shaftFriction_kn(100, 10);
  near(f.low, Math.PI * 0.1 * 0.15 * 4 * 50, 1e-9, 'least');
  near(f.high, Math.PI * 0.1 * 0.6 * 11 * 50, 1e-9, 'most');
  assert.ok(FRICTION.vibrated.high < 1 && FRICTION.vibrated.low > 0);
});

test('common practice, no source: a valve sampler takes up to about 1.2 m a run', () => {
  assert.equal(USUAL_RUN_M, 1.2);
});

test('every caution defers to local codes and makers’ manuals', () => {
  for (const caution of Object.values(CAUTIONS))
    assert.match(caution, /Local codes, the permit and the makers’ manuals/);
});
