import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mean, randomStream, summarize } from '@stillstand/science/base';
import { type AgeDepthInput, type AgeDepthSettings, ageDepthDefaults, ageDepthWithDraws } from './index.ts';

/** Even within whole years, so that a twin can look it up. */
function density(mean: number, sd: number): { from_cal_bp: number; density: Float64Array } {
  const from_cal_bp = Math.floor(mean - 5 * sd);
  const years = Math.ceil(10 * sd);
  return {
    from_cal_bp,
    density: Float64Array.from({ length: years }, (_, i) =>
      Math.exp(-0.5 * ((from_cal_bp + i - mean) / sd) ** 2),
    ),
  };
}

/** Three sections, four states of the hole, a break, two dates that agree and one that does not. */
const settings: AgeDepthSettings = { ...ageDepthDefaults, sections: 3, draws: 4000 };
const few: AgeDepthInput = {
  horizons: [
    { id: 'top', depth_m: Float64Array.of(0.5, 0.7, 0.6, 0.9), age: density(700, 250) },
    { id: 'middle', depth_m: Float64Array.of(1.2, 1.5, 1.3, 1.4), age: density(4500, 200) },
    { id: 'low', depth_m: Float64Array.of(2.4, 2.6, 2.2, 2.7), age: density(3500, 400) },
  ],
  surface: { age_cal_bp: 0, sd_yr: 50 },
  breaks: [{ id: 'contact', depth_m: Float64Array.of(1, 1.1, 0.9, 1.2) }],
  bottom_m: 3,
};

test('the plain twin: histories drawn from the prior and weighted by the dates, seed 3', () => {
  const twin = weightedHistories(few, settings, 300_000, 3);
  const run = ageDepthWithDraws(few, settings, randomStream(3));
  assert(run.kind === 'run');
  const { result } = run;
  assert(result.diagnostics.converged, result.diagnostics.remarks.join('\n'));
  // Logarithms where the tail is long.
  const ours = new Map(run.quantities.map(({ name, chains }) => [name, chains]));
  for (const [name, other] of twin.numbers) {
    const chains = ours.get(name)!.map((c) => (name.startsWith('age') ? c : c.map(Math.log)));
    const { mean, sd, mcse } = summarize(chains);
    const off = Math.abs(mean - other.mean) / Math.hypot(mcse, other.error);
    assert(off < 4, `${name}: mean ${mean} ± ${mcse} here, ${other.mean} ± ${other.error} there`);
    assert(Math.abs(sd / other.sd - 1) < 0.06, `${name}: sd ${sd} here, ${other.sd} there`);
  }
  for (const h of result.horizons) {
    const other = twin.outOfPlace.get(h.id)!;
    assert(Math.abs(h.out_of_place - other) < 0.03, `${h.id} out of place: ${h.out_of_place}, ${other}`);
  }
  const bottom = result.agesAt(3);
  assert.equal(bottom.length, result.diagnostics.chains * result.diagnostics.draws);
  assert(
    Math.abs(mean(bottom) - result.age_cal_bp.mean.at(-1)!) < 1e-6,
    'the lowest depth of the grid, asked for',
  );
});

/** Everything in the open: covariance matrix, cells of a year, sums over all years. */
function weightedHistories(
  input: AgeDepthInput,
  s: AgeDepthSettings,
  count: number,
  seed: number,
): {
  numbers: Map<string, { mean: number; sd: number; error: number }>;
  outOfPlace: Map<string, number>;
} {
  const stream = randomStream(seed).split('twin');
  const n = s.sections;
  const h = input.bottom_m / n;
  const tables = input.horizons.map(({ age }) => {
    const total = age.density.reduce((a, b) => a + b);
    const last = age.from_cal_bp + age.density.length - 1;
    const at = (year: number): number => (age.density[year - age.from_cal_bp] ?? 0) / total;
    const spread = (year: number, scale: number): number => {
      const d = Math.exp(-1 / scale);
      let sum = 0;
      for (let y = age.from_cal_bp; y <= last; y++) sum += at(y) * d ** Math.abs(y - year);
      return (sum * (1 - d)) / (1 + d) / s.out_of_place_yr.length;
    };
    const cache = new Map<number, number>();
    const cached = (year: number, scale: number): number => {
      const key = year * 1e6 + scale;
      if (!cache.has(key)) cache.set(key, spread(year, scale));
      return cache.get(key)!;
    };
    return (t: number): { inPlace: number; out: number } => {
      const year = Math.floor(t + 0.5);
      // Beyond its ends the sum over the years of the date falls by the same part from year to year.
      const inside = Math.min(last, Math.max(age.from_cal_bp, year));
      let out = 0;
      for (const scale of s.out_of_place_yr)
        out += cached(inside, scale) * Math.exp(-Math.abs(year - inside) / scale);
      return { inPlace: (1 - s.out_of_place) * at(year), out: s.out_of_place * out };
    };
  });
  const rows: { weight: number; numbers: number[]; out: number[] }[] = [];
  for (let draw = 0; draw < count; draw++) {
    const mean = Math.log(1000 / s.accumulation_mm_yr) + s.accumulation_log_sd * stream.normal();
    const variation = s.variation * Math.exp(s.variation_log_sd * stream.normal());
    const persistence = s.persistence_m * Math.exp(s.persistence_log_sd * stream.normal());
    const r = h / persistence;
    const v = (2 * (r - 1 + Math.exp(-r))) / r ** 2;
    const phi = (2 - r * v) / (2 + r * v);
    // Section 1 is the first below the break at about 1 m.
    const w = [Math.sqrt(v) * stream.normal(), Math.sqrt(v) * stream.normal()];
    w.push(phi * w[1]! + Math.sqrt(v * (1 - phi ** 2)) * stream.normal());
    const x = w.map((each) => Math.exp(mean + variation * each));
    const ground = input.surface!.age_cal_bp + input.surface!.sd_yr * stream.normal();
    const gap = s.gap_mean_yr * stream.exponential();
    const k = stream.integer(4);
    const age = (d: number): number => {
      let sum = ground + (d > input.breaks[0]!.depth_m[k]! ? gap : 0);
      for (let j = 0; j < n; j++) sum += x[j]! * Math.min(h, Math.max(0, d - j * h));
      return sum;
    };
    const ages = input.horizons.map(({ depth_m }) => age(depth_m[k]!));
    let weight = 1;
    const out = ages.map((t, i) => {
      const l = tables[i]!(t);
      weight *= l.inPlace + l.out;
      return l.out / (l.inPlace + l.out);
    });
    rows.push({
      weight,
      numbers: [
        ...ages,
        age(input.bottom_m),
        Math.log(gap),
        Math.log(variation),
        Math.log(persistence),
        Math.log(1000) - mean,
      ],
      out,
    });
  }
  const total = rows.reduce((sum, { weight }) => sum + weight, 0);
  const names = [
    ...input.horizons.map(({ id }) => `age of ${id}`),
    'age at 3.00 m',
    'gap at contact',
    'variation of accumulation',
    'persistence of accumulation',
    'accumulation of the hole',
  ];
  const numbers = new Map(
    names.map((name, i) => {
      const m = rows.reduce((sum, row) => sum + row.weight * row.numbers[i]!, 0) / total;
      const square = rows.reduce((sum, row) => sum + row.weight * (row.numbers[i]! - m) ** 2, 0) / total;
      const error =
        Math.sqrt(rows.reduce((sum, row) => sum + (row.weight * (row.numbers[i]! - m)) ** 2, 0)) / total;
      return [name, { mean: m, sd: Math.sqrt(square), error }];
    }),
  );
  const outOfPlace = new Map(
    input.horizons.map(({ id }, i) => [
      id,
      rows.reduce((sum, row) => sum + row.weight * row.out[i]!, 0) / total,
    ]),
  );
  return { numbers, outOfPlace };
}
