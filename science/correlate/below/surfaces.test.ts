/** Elevations between holes against the Brownian bridge, and two contacts against each other. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { normalCdf } from '@stillstand/science/base';
import { belowDefaults } from './settings.ts';
import { below, type Mixture, quantileBelow, surfaces } from './surfaces.ts';

const ROUGH = 0.01;
/** One roughness, no relief, nothing odd; the range so long that distance alone counts. */
const plain = {
  ...belowDefaults,
  range_m: 1e7,
  level_sd_m: 1e4,
  roughness_m2_m: [ROUGH / 2],
  relief_m: [0.001],
  odd: 0,
  dip: 0,
  own_dip: 0,
};
const seen = (contact: number, place: number, elevation_m: number) => ({
  contact,
  place,
  elevation_m,
  sigma_m: 0.001,
});

/** Places along a line, about the first. */
const line = (...at_m: number[]) => at_m.map((x) => ({ east_m: x - at_m[0]!, north_m: 0 }));

test('between two holes: the mean on the straight line, the variance of a Brownian bridge (d₁d₂/(d₁ + d₂) by metre)', () => {
  const at = line(40, 0, 100);
  const made = surfaces([seen(0, 1, -3), seen(0, 2, -5)], at, {
    ...plain,
    common: [0],
  });
  const [only] = made.at(0, 0);
  assert(Math.abs(only!.mean - -3.8) < 1e-3, `${only!.mean}`);
  assert(Math.abs(only!.sd / Math.sqrt((ROUGH * 40 * 60) / 100) - 1) < 1e-3, `${only!.sd}`);
});

test('beyond the last hole the variance grows by the metre', () => {
  const at = line(130, 0, 100);
  const made = surfaces([seen(0, 1, -3), seen(0, 2, -5)], at, {
    ...plain,
    common: [0],
  });
  const [only] = made.at(0, 0);
  assert(Math.abs(only!.mean - -5) < 0.01, `${only!.mean}`);
  assert(Math.abs(only!.sd / Math.sqrt(ROUGH * 30) - 1) < 0.01, `${only!.sd}`);
});

test('what all contacts have in common is read off one that was met: its share of the way, less of the variance', () => {
  const at = line(50, 0, 100);
  const level = [seen(0, 1, -3), seen(0, 2, -3), seen(1, 1, -6), seen(1, 2, -6)];
  const made = surfaces([...level, seen(0, 0, -2)], at, { ...plain, common: [0.8] });
  const [lower] = made.at(0, 1);
  // The upper one lies 1 m above its line, and 0.8 of that is expected of the lower one.
  assert(Math.abs(lower!.mean - -5.2) < 0.01, `${lower!.mean}`);
  assert(Math.abs(lower!.sd / Math.sqrt(ROUGH * 25 * (1 - 0.8 ** 2)) - 1) < 0.01, `${lower!.sd}`);
});

test('quantiles of what is below a bound are those of a truncated normal distribution', () => {
  const mixture = [{ weight: 1, mean: 2, sd: 0.5 }];
  for (const p of [0.025, 0.5, 0.975]) {
    const x = quantileBelow(mixture, p, 1.8);
    assert(Math.abs(normalCdf((x - 2) / 0.5) / normalCdf(-0.4) - p) < 1e-9);
    assert(x < 1.8);
  }
  assert(Math.abs(below(mixture, 2) - 0.5) < 1e-12);
});

test('a dip that is known of several holes goes on beyond them', () => {
  const at = line(150, 0, 50, 100);
  const level = [0, 1, 2].map((k) => seen(0, k + 1, -0.02 * 50 * k));
  const made = surfaces(level, at, { ...plain, common: [0], roughness_m2_m: [1e-6], dip: 0.1 });
  const [only] = made.at(0, 0);
  assert(Math.abs(only!.mean - -3) < 0.05, `${only!.mean}`);
});

test('what the others say of one that was seen is what they say where it is left out', () => {
  const at = line(0, 30, 80, 140);
  const all = [
    seen(0, 0, -2.2),
    seen(0, 1, -2),
    seen(0, 2, -2.6),
    seen(1, 0, -4),
    seen(1, 3, -5),
    seen(1, 1, -4.4),
  ];
  const mean = (mixture: Mixture): number => mixture.reduce((sum, part) => sum + part.weight * part.mean, 0);
  const spread = (mixture: Mixture): number =>
    mixture.reduce((sum, part) => sum + part.weight * (part.sd ** 2 + part.mean ** 2), 0) -
    mean(mixture) ** 2;
  // All errors alike, so that what is seen and what is asked have one variance but for 1 mm.
  const within = surfaces(all, at, belowDefaults).without(3);
  const left = surfaces(all.toSpliced(3, 1), at, belowDefaults).at(0, 1);
  assert(Math.abs(mean(within) - mean(left)) < 2e-3, `${mean(within)}, ${mean(left)}`);
  assert(Math.abs(spread(within) / spread(left) - 1) < 0.01, `${spread(within)}, ${spread(left)}`);
});
