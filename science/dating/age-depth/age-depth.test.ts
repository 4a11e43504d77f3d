import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mean, randomStream, summarize } from '@stillstand/science/base';
import {
  type AgeDepth,
  type AgeDepthInput,
  type AgeDepthSettings,
  ageDepth,
  ageDepthDefaults,
  ageDepthWithDraws,
} from './index.ts';

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
  // Logarithms, because the tails are long; of ages from 1000 years after 1950 CE on.
  const ours = new Map(run.quantities.map(({ name, chains }) => [name, chains]));
  for (const [name, other] of twin.numbers) {
    const chains = ours.get(name)!.map((c) => c.map((x) => Math.log(name.startsWith('age') ? 1000 + x : x)));
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

const at = (depth: number): Float64Array => Float64Array.of(depth);
const plain: AgeDepthInput = {
  horizons: [
    { id: 'a', depth_m: at(1), age: density(1000, 40) },
    { id: 'b', depth_m: at(2), age: density(1900, 40) },
    { id: 'wrong', depth_m: at(2.5), age: density(6000, 40) },
    { id: 'c', depth_m: at(3), age: density(3100, 40) },
  ],
  surface: { age_cal_bp: -60, sd_yr: 0 },
  breaks: [],
  bottom_m: 4,
};

test('a date that cannot be is named, ages grow downward, the same seed gives the same numbers, seed 4', () => {
  const result = ageDepth(plain, ageDepthDefaults, randomStream(4));
  assert(result.kind === 'age_depth' && result.diagnostics.converged);
  const out = result.horizons.map((h) => h.out_of_place);
  assert(out[2]! > 0.95 && Math.max(out[0]!, out[1]!, out[3]!) < 0.1, out.join(' '));
  assert.equal(result.age_cal_bp.median[0], -60);
  const [above, below] = [result.agesAt(1.2), result.agesAt(1.21)];
  assert(above.every((t, k) => t < below[k]!));
  assert.deepEqual(result.agesAt(-0.1), result.agesAt(0));
  assert(result.agesAt(4.01).every(Number.isNaN));
  const again = ageDepth(plain, ageDepthDefaults, randomStream(4));
  assert(again.kind === 'age_depth');
  assert.deepEqual(again.agesAt(1.2), above);
});

test('the number of sections is no part of the model: 20 and 60 of them, seed 5', () => {
  const [coarse, fine] = [20, 60].map((sections) => {
    const result = ageDepth(plain, { ...ageDepthDefaults, sections }, randomStream(5));
    assert(result.kind === 'age_depth');
    return result;
  }) as [AgeDepth, AgeDepth];
  for (const depth of [0.5, 1.5, 2.25, 3.8]) {
    const [a, b] = [summarize([coarse.agesAt(depth)]), summarize([fine.agesAt(depth)])];
    assert(Math.abs(a.median - b.median) < 0.2 * b.sd, `${depth} m: median ${a.median}, ${b.median}`);
    const widths = (a.upper68 - a.lower68) / (b.upper68 - b.lower68);
    assert(widths > 0.85 && widths < 1.18, `${depth} m: widths as ${widths}`);
  }
});

test('too little is an answer, depths that do not belong together an error', () => {
  const one = { ...plain, horizons: plain.horizons.slice(0, 1) };
  const lone = ageDepth({ ...one, surface: null }, ageDepthDefaults, randomStream(1));
  assert.equal(lone.kind, 'not_enough');
  assert.equal(ageDepth({ ...one, horizons: [] }, ageDepthDefaults, randomStream(1)).kind, 'not_enough');
  assert.equal(ageDepth(one, ageDepthDefaults, randomStream(1)).kind, 'age_depth');
  const two = { ...plain.horizons[1]!, depth_m: Float64Array.of(2, 2.1) };
  const wrong = { ...plain, horizons: [plain.horizons[0]!, two] };
  assert.throws(() => ageDepth(wrong, ageDepthDefaults, randomStream(1)), RangeError);
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
      // Both are nothing where a history runs to millions of years.
      return l.out > 0 ? l.out / (l.inPlace + l.out) : 1;
    });
    rows.push({
      weight,
      numbers: [
        ...[...ages, age(input.bottom_m)].map((t) => Math.log(1000 + t)),
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
