/**
 * Luminescence ages that share a systematic error: seas drawn from the prior, 12 ages measured together, own error 4 % and
 * shared error 6 % of 5,000 yr, and three radiocarbon-like ages that share nothing. Set before measuring: levels and the rate
 * are held 0.95 ± 0.1 of the time (40 sets; between sets a share scatters by about 0.2, so 3 sigma), every set converges. What
 * is held if the errors are taken as each age's own is printed, and what is held of truths outside the model. Seed 93. The gate
 * takes the first 12 sets, at the same bounds; `STILLSTAND_SETS=40` all; not every one of those converges.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mean, randomStream } from '@stillstand/science/base';
import { type CurvePoint, computeCurve } from '@stillstand/science/curve';
import { knownToFail } from '../bounds/known-to-fail.ts';
import { plain, settings } from './known-seas.ts';
import { drawSea } from './simulated-sea.ts';

const ALL = 40;
const SETS = Number(process.env['STILLSTAND_SETS'] ?? 12);
/** Fewer of the truths that are only printed: chains that cannot agree are long. */
const OUTSIDE = SETS < ALL ? 2 : 20;
const OWN_YR = 200;
const SHARED_YR = 300;
const LEVELS = [1000, 3000, 5000, 7000];
const choices = {
  ...settings,
  outliers: null,
  tie: null,
  ages_cal_bp: LEVELS,
  intervals: [{ older_cal_bp: 7000, younger_cal_bp: 1000 }],
};

interface Assumed {
  /** Times the shared error that is stated. */
  times?: number;
  /** Whether the error is stated as shared, and whether it is. */
  stated?: boolean;
  shared?: boolean;
}

function held(
  set: number,
  { times = 1, stated = true, shared = true }: Assumed,
): { share: number; ok: boolean } {
  const stream = randomStream(93).split(set);
  const ages = Array.from({ length: 15 }, () => Math.round(500 + 7000 * stream.uniform()));
  const sea = drawSea(choices.priors, [...ages, ...LEVELS], [], stream);
  const together = stream.normal();
  const points = ages.map((age, i): CurvePoint => {
    const base = plain(`P${i}`, sea.level_m(age) + 0.15 * stream.normal(), 0.15);
    if (i < 3) {
      const mean_cal_bp = age + 40 * stream.normal();
      return { ...base, age: { kind: 'normal', mean_cal_bp, sd_yr: 40 } };
    }
    const off = times * SHARED_YR * (shared ? together : stream.normal());
    return {
      ...base,
      age: {
        kind: 'normal',
        mean_cal_bp: age + off + OWN_YR * stream.normal(),
        sd_yr: Math.hypot(OWN_YR, SHARED_YR),
        ...(stated ? { systematic: { group: 'lab', sd_yr: SHARED_YR } } : {}),
      },
    };
  });
  const found = computeCurve(points, { ...choices, seed: set });
  const rate = found.intervals[0]!.rate_mm_yr;
  const truth = sea.level_m(1000) - sea.level_m(7000);
  const within = [
    ...LEVELS.map((age, k) => {
      const level = sea.level_m(age);
      return level >= found.level_m.lower95[k]! && level <= found.level_m.upper95[k]!;
    }),
    truth / 6 >= rate.lower95 && truth / 6 <= rate.upper95,
  ];
  return { share: within.filter(Boolean).length / within.length, ok: found.diagnostics.converged };
}

test(`a systematic error of 12 ages enters once, ${SETS} sets, seed 93`, async (t) => {
  const sets = Array.from({ length: SETS }, (_, set) => held(set, {}));
  const own = Array.from({ length: SETS }, (_, set) => held(set, { stated: false }));
  const share = mean(sets.map((s) => s.share));
  t.diagnostic(
    `held ${share.toFixed(3)}; taken as each age’s own ${mean(own.map((s) => s.share)).toFixed(3)}`,
  );
  t.diagnostic(
    `${sets.filter((s) => s.ok).length} of ${SETS} converged; taken as own ${own.filter((s) => s.ok).length}`,
  );
  assert.ok(Math.abs(share - 0.95) <= 0.1, `${share}`);
  const converged = sets.filter((s) => s.ok).length / SETS;
  if (SETS < ALL) assert.equal(converged, 1);
  else
    await knownToFail(t, {
      what: 'curve, share of sets with a systematic error of dates that converge, 40 sets, seed 93',
      bound: { at_least: 1 },
      measured: converged,
      stated: '0.9',
      since: '2026-11-30',
      page: 'docs/methods/curve.md',
    });
});

test(`truths outside the model, printed: ${OUTSIDE} sets each, seed 93`, (t) => {
  const printed = (what: string, assumed: Assumed): void => {
    const share = mean(Array.from({ length: OUTSIDE }, (_, set) => held(set, assumed).share));
    t.diagnostic(`held ${share.toFixed(3)}: ${what}`);
  };
  printed('the shared error is twice what is stated', { times: 2 });
  printed('stated as shared, but each age has its own', { shared: false });
});
