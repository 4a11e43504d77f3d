/**
 * A gauge of 116 years on a sea drawn from the prior, with eight older index points. Years scatter about the sea by
 * first-order noise of 3 cm; every second gauge has a zero known to 3 cm, the others one that nobody knows. Asked: the rate of
 * 1900 to 2010 and the level of 1950, each against its 95 %.
 * Set before measuring: 0.90 to 0.98 of the rates are held, of 240 sets (one sigma is 0.014), and the rate of the century is
 * at least three times as narrow as without the gauge. Seed 192. The gate takes the first 48 sets, at the same bounds:
 * `STILLSTAND_SETS=80` takes 80 of each of three correlations, which are held; the first 48 miss it by one set.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import {
  type CurvePoint,
  type CurveSettings,
  computeCurve,
  DEFAULT_CURVE_SETTINGS,
  gaugePoints,
} from '@stillstand/science/curve';
import { annualBlocks } from '@stillstand/science/tide';
import { knownToFail } from '../bounds/known-to-fail.ts';
import { plain } from './known-seas.ts';
import { drawSea } from './simulated-sea.ts';

const GATE = 16;
const SETS = Number(process.env['STILLSTAND_SETS'] ?? GATE);
const YEARS = Array.from({ length: 116 }, (_, i) => 1895 + i);
const bp = (year: number): number => 1950 - year;
const NOISE_M = 0.03;
const ZERO_M = 0.03;
const CENTURY = { older_cal_bp: 50, younger_cal_bp: -60 };

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  priors: { ...DEFAULT_CURVE_SETTINGS.priors, rate_mean_mm_yr: 1 },
  tie: null,
  ages_cal_bp: [-60, 0, 50],
  intervals: [CENTURY],
  chains: 2,
  draws: 400,
};

test(`a gauge and eight points, ${SETS} sets under noise of each of three correlations, seed 192`, async (t) => {
  let [rates, levels, converged, sets] = [0, 0, 0, 0];
  const width = { with: 0, without: 0 };
  for (const rho of [0.2, 0.5, 0.8]) {
    let held = 0;
    for (let set = 0; set < SETS; set++) {
      const stream = randomStream(192)
        .split(rho * 10)
        .split(set);
      const ages = Array.from({ length: 8 }, (_, i) => 400 + 700 * i + Math.floor(600 * stream.uniform()));
      const sea = drawSea(settings.priors, [...ages, ...YEARS.map(bp), 50, 0, -60], [], stream);
      const points = ages.map((age, i): CurvePoint => {
        const sigma_m = 0.15 + 0.15 * stream.uniform();
        return {
          ...plain(`P${i}`, sea.level_m(age) + sigma_m * stream.normal(), sigma_m),
          age: { kind: 'normal', mean_cal_bp: age + 60 * stream.normal(), sd_yr: 60 },
        };
      });
      const isKnown = set % 2 === 0;
      const zero_m = isKnown ? ZERO_M * stream.normal() : 7;
      let noise = stream.normal();
      const { blocks } = annualBlocks(
        YEARS.map((year_ce) => {
          noise = rho * noise + Math.sqrt(1 - rho * rho) * stream.normal();
          return { year_ce, level_m: sea.level_m(bp(year_ce)) + zero_m + NOISE_M * noise, sigma_m: null };
        }),
      );
      const zero = { elevation_m: 0, shared: [{ group: 'gauge:G', sigma_m: ZERO_M }] };
      const all = [...points, ...gaugePoints('G', blocks, isKnown ? zero : null)];
      const found = computeCurve(all, { ...settings, seed: set });
      sets++;
      if (found.diagnostics.converged) converged++;
      const rate = found.intervals[0]!.rate_mm_yr;
      const truth = (sea.level_m(-60) - sea.level_m(50)) / 0.11;
      if (truth >= rate.lower95 && truth <= rate.upper95) held++;
      const level = sea.level_m(0);
      if (level >= found.level_m.lower95[1]! && level <= found.level_m.upper95[1]!) levels++;
      width.with += rate.upper95 - rate.lower95;
      if (set >= 4) continue;
      const alone = computeCurve(points, { ...settings, seed: set }).intervals[0]!.rate_mm_yr;
      width.without += ((alone.upper95 - alone.lower95) * SETS) / Math.min(4, SETS);
    }
    rates += held;
    t.diagnostic(`correlation ${rho}: rate of the century held ${(held / SETS).toFixed(3)}`);
  }
  t.diagnostic(
    `rates held ${(rates / sets).toFixed(3)}, levels ${(levels / sets).toFixed(3)}; 95 % of the rate ${(width.with / sets).toFixed(2)} mm/yr wide, ${(width.without / sets).toFixed(2)} without the gauge; ${converged} of ${sets} converged`,
  );
  if (SETS === GATE)
    await knownToFail(t, {
      what: 'gauge, rate of 1900 to 2010 held, 48 sets, seed 192',
      bound: { at_least: 0.9 },
      measured: rates / sets,
      stated: '0.896',
      since: '2026-11-29',
      page: 'docs/methods/curve.md',
    });
  else assert.ok(rates / sets >= 0.9 && rates / sets <= 0.98, `${rates / sets}`);
  assert.ok(width.with < width.without / 3);
});
