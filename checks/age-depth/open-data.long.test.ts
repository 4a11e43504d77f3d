/**
 * An outside answer: the 137Cs of two marsh cores (data/README.md), whose peak is of 1963 (Pennington, Cambray & Fisher
 * 1973, Nature 242:324–326; from memory), against ages from their radiocarbon alone. Seed 1. The gate
 * takes one of them.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { quantiles, randomStream } from '@stillstand/science/base';
import { partOrWhole } from '../bounds/part.ts';
import { caesiumOf, datedCore, modelled, named } from './cores.ts';

test('the caesium peak of marsh cores is of 1963 by their radiocarbon, seed 1', async (t) => {
  const curve = await loadCurve('bomb21_nh2');
  for (const core of partOrWhole(['TP_1'], ['SP_1', 'TP_1'])) {
    // OS 70461: its error is a slip of conversion. OS70424: as likely of years after the curve as within it.
    const horizons = datedCore('sand_tump_points_dates.csv', core, curve, 1, ['OS 70461', 'OS70424']);
    const result = modelled(horizons, 2007, 1, 1);
    const peak = caesiumOf(core).reduce((a, b) => (b.cs137_bq_kg > a.cs137_bq_kg ? b : a));
    const stream = randomStream(1).split(core);
    const { depth_top_cm: top, depth_bottom_cm: bottom } = peak;
    const depth_m = Float64Array.from({ length: 100 }, () => (top + (bottom - top) * stream.uniform()) / 100);
    const ce = quantiles(result.agesAt(depth_m), [0.975, 0.5, 0.025]).map((age) => 1950 - age);
    t.diagnostic(`${core}, ${top} to ${bottom} cm: ${ce.map((year) => year.toFixed(0)).join(', ')} CE`);
    t.diagnostic(named(result));
    // The year 1963 reaches to its end.
    assert(ce[0]! < 1964 && ce[2]! > 1963, `${core}: ${ce.join(', ')}`);
  }
});
