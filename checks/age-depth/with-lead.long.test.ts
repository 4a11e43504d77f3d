/**
 * Lead-210 and radiocarbon in one history: cores of known truth, a profile of 20 slices of 2 cm above three radiocarbon dates.
 * The activities are read with supply and supported activity unknown. Held: coverage of the ages at four depths, at least
 * 0.95 less three standard errors, set before measuring. Asked too: how much narrower the ages get; and a truth that its
 * model does not have (supply that doubled), printed whatever it is. Seed 71. The gate takes eight cores,
 * `STILLSTAND_CORES=40 node --import tsx --test checks/age-depth/with-lead.long.test.ts` the forty of the page.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, quantiles, type RandomStream, randomStream } from '@stillstand/science/base';
import { type AgeDepthInput, ageDepth, ageDepthDefaults } from '@stillstand/science/dating';
import { type LeadProfile, leadLikelihood } from '@stillstand/science/lead';

const CORES = Number(process.env['STILLSTAND_CORES'] ?? 8);
const COLLECTED_CE = 2015;
const GROUND_CAL_BP = 1950 - COLLECTED_CE;
const LAMBDA = Math.LN2 / 22.2;
const DEPTHS_M = [0.1, 0.2, 0.35, 0.6];
const DENSITY = 0.5;
const SUPPORTED = 20;

/** Years before collection at a depth: faster or slower by a factor of two over some decimetres. */
type Truth = (d: number) => number;
const swinging =
  (phase: number): Truth =>
  (d) =>
    d / 0.003 + 20 * (Math.sin(phase + 8 * d) - Math.sin(phase));

function core(
  truth: Truth,
  supplyAt: (yr: number) => number,
  stream: RandomStream,
): { input: AgeDepthInput; without: AgeDepthInput } {
  const slices = Array.from({ length: 20 }, (_, i) => {
    const top_m = 0.02 * i;
    const bottom_m = 0.02 * (i + 1);
    const [from, to] = [truth(top_m), truth(bottom_m)];
    // Bq/m² of what was laid down in these years, decayed since; kg/m² of the slice.
    let inventory = 0;
    const steps = 20;
    for (let k = 0; k < steps; k++) {
      const yr = from + ((k + 0.5) * (to - from)) / steps;
      inventory += (supplyAt(yr) * exp(-LAMBDA * yr) * (to - from)) / steps;
    }
    const total = inventory / (1000 * DENSITY * 0.02) + SUPPORTED;
    const sigma = 0.05 * total;
    return {
      id: `S${i + 1}`,
      top_m,
      bottom_m,
      total: { bq_kg: total + sigma * stream.normal(), sigma_bq_kg: sigma },
      supported: null,
      density_g_cm3: DENSITY,
      caesium: null,
    };
  });
  const profile: LeadProfile = {
    slices,
    supported: { bq_kg: SUPPORTED + stream.normal(), sigma_bq_kg: 1 },
    collected_ce: COLLECTED_CE,
  };
  const { likelihood } = leadLikelihood(profile);
  assert(likelihood !== null);
  const horizons = [0.45, 0.7, 0.9].map((d, i) => {
    const read = GROUND_CAL_BP + truth(d) + 40 * stream.normal();
    const from_cal_bp = Math.floor(read - 200);
    return {
      id: `D${i + 1}`,
      depth_m: Float64Array.of(d),
      age: {
        from_cal_bp,
        density: Float64Array.from({ length: 401 }, (_, k) =>
          exp(-0.5 * ((from_cal_bp + k - read) / 40) ** 2),
        ),
      },
    };
  });
  const without: AgeDepthInput = {
    horizons,
    surface: { age_cal_bp: GROUND_CAL_BP, sd_yr: 0 },
    breaks: [],
    bottom_m: 1,
  };
  return { input: { ...without, profiles: [{ id: 'lead', ...likelihood }] }, without };
}

const TRUTHS: Record<string, { supplyAt: (yr: number) => number; holds: boolean }> = {
  'constant supply': { supplyAt: () => 150, holds: true },
  'supply doubled 40 years ago': { supplyAt: (yr) => (yr < 40 ? 300 : 150), holds: false },
};

for (const [name, { supplyAt, holds }] of Object.entries(TRUTHS))
  test(`${name}: ages of ${CORES} cores by lead-210 and radiocarbon together (seed 71)`, (t) => {
    const held = DEPTHS_M.map(() => 0);
    const widths = DEPTHS_M.map(() => ({ both: 0, dates: 0 }));
    let converged = 0;
    const began = process.cpuUsage().user;
    for (let set = 0; set < CORES; set++) {
      const stream = randomStream(71).split(name).split(set);
      const truth = swinging(6 * stream.uniform());
      const { input, without } = core(truth, supplyAt, stream);
      const both = ageDepth(input, ageDepthDefaults, stream.split('both'));
      const dates = ageDepth(without, ageDepthDefaults, stream.split('dates'));
      assert(both.kind === 'age_depth' && dates.kind === 'age_depth');
      if (both.diagnostics.converged) converged++;
      DEPTHS_M.forEach((d, i) => {
        const range = quantiles(both.agesAt(d), [0.025, 0.975]);
        const is = GROUND_CAL_BP + truth(d);
        if (range[0]! <= is && is <= range[1]!) held[i]!++;
        const alone = quantiles(dates.agesAt(d), [0.025, 0.975]);
        widths[i]!.both += (range[1]! - range[0]!) / CORES;
        widths[i]!.dates += (alone[1]! - alone[0]!) / CORES;
      });
    }
    for (const [i, d] of DEPTHS_M.entries())
      t.diagnostic(
        `${d} m: 95 % hold ${(held[i]! / CORES).toFixed(3)}, wide ${widths[i]!.both.toFixed(0)} yr, by the dates alone ${widths[i]!.dates.toFixed(0)} yr`,
      );
    t.diagnostic(
      `converged ${converged} of ${CORES}; ${((process.cpuUsage().user - began) / 1e6 / CORES).toFixed(1)} s a core`,
    );
    if (!holds) return;
    const least = 0.95 - 3 * Math.sqrt((0.95 * 0.05) / CORES);
    for (const [i, n] of held.entries()) assert.ok(n / CORES >= least, `${DEPTHS_M[i]} m: ${n} of ${CORES}`);
  });
