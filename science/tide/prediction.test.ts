import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { meanLongitudes } from './astronomy.ts';
import { CONSTITUENTS, constituentNamed } from './constituent.ts';
import { afloatSpans, drySpans } from './dry.ts';
import { highAndLowWaters, tabulatedExtremes } from './extremes.ts';
import { nodeCorrections } from './node.ts';
import { argumentAt, predict, type Tide, tideCurve } from './prediction.ts';
import { interpolateExtremes } from './through-extremes.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Per metre of amplitude: what node corrections move within half a day. */
const HEIGHT_SHARE = 1e-4;

const tides = fc.record({
  mean_m: fc.double({ min: -3, max: 3, noNaN: true }),
  constants: fc.array(
    fc.record({
      constituent: fc.constantFrom(...CONSTITUENTS.map(({ name }) => name)),
      amplitude_m: fc.double({ min: 0, max: 3, noNaN: true }),
      phase_deg: fc.double({ min: 0, max: 360, noNaN: true }),
    }),
    { maxLength: 12 },
  ),
});
const moments = fc.integer({ min: Date.UTC(1960, 0, 1), max: Date.UTC(2060, 0, 1) });
const SEED = { seed: 11, numRuns: 100 };

/** The sum as it stands in the book, everything taken at the very moment. */
function plainHeight(tide: Tide, time_ms: number): number {
  const at = meanLongitudes(time_ms);
  const nodes = nodeCorrections(at.N_deg, at.p_deg);
  return tide.constants.reduce((height, { constituent, amplitude_m, phase_deg }) => {
    const { f, u_deg } = argumentAt(constituentNamed(constituent)!, at, nodes);
    return height + f * amplitude_m * Math.cos(((u_deg - phase_deg) * Math.PI) / 180);
  }, tide.mean_m);
}

test('the curve of a day is the plain sum (seed 11)', () => {
  fc.assert(
    fc.property(tides, moments, (tide, time_ms) => {
      const most = tide.constants.reduce((sum, c) => sum + c.amplitude_m, 0);
      const curve = tideCurve(tide);
      assert.ok(
        Math.abs(curve.height_m(time_ms) - plainHeight(tide, time_ms)) < HEIGHT_SHARE * (1 + 20 * most),
      );
      const step = (curve.height_m(time_ms + 500) - curve.height_m(time_ms - 500)) * 3600;
      if (time_ms % DAY_MS > 500 && time_ms % DAY_MS < DAY_MS - 500) {
        assert.ok(Math.abs(curve.rate_m_h(time_ms) - step) < 1e-5 * (1 + most));
      }
    }),
    SEED,
  );
});

test('times in any order give the same heights; unknown constituents are named and left out', () => {
  const tide = { mean_m: 0.3, constants: [{ constituent: 'm2', amplitude_m: 1, phase_deg: 40 }] };
  const times = [3, -400, 7, 1, 9000].map((days) => Date.UTC(2020, 0, 1) + days * DAY_MS);
  const alone = times.map((time) => predict(tide, [time])[0]);
  assert.deepEqual([...predict(tide, times)], alone);
  const odd = tideCurve({
    mean_m: 0,
    constants: [...tide.constants, { constituent: 'M2X', amplitude_m: 9, phase_deg: 0 }],
  });
  assert.deepEqual(odd.unknown, ['M2X']);
  assert.equal(constituentNamed('µ2')?.name, 'MU2');
  assert.equal(constituentNamed('ν2')?.name, 'NU2');
  assert.equal(constituentNamed(' rho1 ')?.name, 'RHO');
  assert.equal(constituentNamed('Z0'), null);
});

test('high and low waters take turns, and no minute between them is higher or lower (seed 11)', () => {
  fc.assert(
    fc.property(tides, moments, (tide, from_ms) => {
      const curve = tideCurve(tide);
      const to_ms = from_ms + 2 * DAY_MS;
      const waters = highAndLowWaters(curve, from_ms, to_ms);
      for (let i = 1; i < waters.length; i++) {
        assert.notEqual(waters[i]!.kind, waters[i - 1]!.kind);
        const [low, high] = [waters[i - 1]!.height_m, waters[i]!.height_m].sort((a, b) => a - b);
        for (let t = waters[i - 1]!.time_ms; t < waters[i]!.time_ms; t += 600_000) {
          const height = curve.height_m(t);
          assert.ok(height > low! - 1e-3 && height < high! + 1e-3);
        }
      }
    }),
    { seed: 11, numRuns: 40 },
  );
});

test('a stand with a dip of 2 cm is one high water in a table', () => {
  const at = (hours: number) => Date.UTC(2024, 5, 1) + hours * HOUR_MS;
  const waters = [
    { kind: 'low', time_ms: at(0), height_m: 0.2 },
    { kind: 'high', time_ms: at(6), height_m: 2 },
    { kind: 'low', time_ms: at(7), height_m: 1.98 },
    { kind: 'high', time_ms: at(8), height_m: 2.01 },
    { kind: 'low', time_ms: at(14), height_m: 0.3 },
  ] as const;
  assert.deepEqual(
    tabulatedExtremes(waters).map(({ kind, height_m }) => `${kind} ${height_m}`),
    ['low 0.2', 'high 2.01', 'low 0.3'],
  );
});

test('dry spans are what a walk of ten seconds finds (seed 11)', () => {
  const waters = fc.array(fc.double({ min: 0.6, max: 2.5, noNaN: true }), { minLength: 3, maxLength: 6 });
  fc.assert(
    fc.property(waters, fc.double({ min: -1, max: 1, noNaN: true }), (ranges, level_m) => {
      const from_ms = Date.UTC(2024, 2, 3);
      const table = ranges.map((range, i) => ({
        time_ms: from_ms + (i * 6.2 + 1) * HOUR_MS,
        height_m: ((i % 2 === 0 ? 1 : -1) * range) / 2,
      }));
      const curve = interpolateExtremes(table);
      const to_ms = from_ms + DAY_MS;
      const spans = drySpans(curve, level_m, from_ms, to_ms);
      for (let t = from_ms; t < to_ms; t += 10_000) {
        const isIn = spans.some((span) => t >= span.from_ms && t <= span.to_ms);
        // Within the second of a turn either answer is right.
        if (spans.some((span) => Math.min(Math.abs(t - span.from_ms), Math.abs(t - span.to_ms)) < 2000))
          continue;
        assert.equal(isIn, curve.height_m(t) < level_m, new Date(t).toISOString());
      }
      for (const span of spans) assert.ok(!(curve.height_m(span.to_ms) > level_m), 'late');
      // What is not dry and known is afloat.
      const afloat = afloatSpans(curve, level_m, from_ms, to_ms);
      const length = (all: typeof spans): number =>
        all.reduce((sum, { from_ms: a, to_ms: b }) => sum + b - a, 0);
      const known = Math.min(to_ms, table.at(-1)!.time_ms) - table[0]!.time_ms;
      assert.ok(Math.abs(length(spans) + length(afloat) - known) < 20_000);
      // Before its first water the table knows nothing: a span that begins there did not fall dry.
      const first = spans[0];
      if (first !== undefined && first.from_ms < table[0]!.time_ms + 1000) assert.equal(first.begins, false);
    }),
    { seed: 11, numRuns: 60 },
  );
});

test('half a cosine: at the waters themselves, half-way in the middle, and the twelfths of practice between', () => {
  const at = (hours: number) => Date.UTC(2024, 5, 1) + hours * HOUR_MS;
  const curve = interpolateExtremes([
    { time_ms: at(0), height_m: 0 },
    { time_ms: at(6), height_m: 12 },
    { time_ms: at(12), height_m: 6 },
  ]);
  assert.equal(curve.height_m(at(0)), 0);
  assert.equal(curve.height_m(at(6)), 12);
  assert.ok(Math.abs(curve.height_m(at(3)) - 6) < 1e-12);
  // 1, 2, 3, 3, 2, 1 twelfths in the six hours: common practice, no source; it rounds the cosine to a quarter of a twelfth.
  [0, 1, 3, 6, 9, 11, 12].forEach((twelfths, hour) => {
    assert.ok(Math.abs(curve.height_m(at(hour)) - twelfths) < 0.25);
  });
  assert.ok(Number.isNaN(curve.height_m(at(-1))));
  assert.ok(Number.isNaN(curve.height_m(at(12.1))));
});
