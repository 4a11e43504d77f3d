/** Loss on ignition, water, density and grain size against published tables, and statistics against printed examples. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import {
  folkWard,
  fromPanWeights,
  grainClasses,
  grainStatistics,
  moments,
  SIZE_SCALES,
  sizeRange,
  textureName,
} from '@stillstand/science/laboratory';

function rowsOf(name: string): Record<string, string>[] {
  const text = readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8');
  const [headings, ...lines] = text
    .trim()
    .split('\n')
    .map((line) => line.split(','));
  return lines.map((cells) => Object.fromEntries(headings!.map((heading, i) => [heading, cells[i]!])));
}
const near = (actual: number, expected: number, within: number, what = '') =>
  assert.ok(Math.abs(actual - expected) <= within, `${what} ${actual} is not ${expected} ± ${within}`);
const g = (text: string | undefined) => ({ value: Number(text), sigma: null });

/** cm³, that the publication divides by (from its figures). */
const THEIR_VOLUME = { value: 76.97, sigma: null };

test('loss on ignition, dry density and water of every row of Sweet Hall Marsh to the printed digits', () => {
  const rows = rowsOf('sweet_hall.csv');
  assert.equal(rows.length, 23);
  for (const row of rows) {
    const { weighed, faults } = fromPanWeights({
      pan: g(row['pan_g']),
      wet: g(row['pan_wet_g']),
      dry: g(row['pan_dry_g']),
      burnt: g(row['pan_burnt_g']),
      volume: THEIR_VOLUME,
    });
    near(weighed.loss_on_ignition!.value, Number(row['published_loss_on_ignition_percent']), 1e-7, 'loss');
    const density = Number(row['published_dry_density_g_cm3']);
    near(weighed.dry_density!.value, density, 1e-9, 'density');
    // Theirs is water over the volume: ours over dry mass, times dry density.
    near(
      (weighed.water_content!.value / 100) * weighed.dry_density!.value,
      Number(row['published_water_volume_fraction']),
      1e-9,
      'water',
    );
    // Their volume is not that of what was weighed: at most half of it is filled, and it is said in every row.
    assert.deepEqual(
      faults.map(({ at, severity }) => [at, severity]),
      [['volume', 'warning']],
    );
  }
});

test('gravel, sand, silt and clay of Sweet Hall Marsh: parts in classes sum to their total; clay without an end has no mean', () => {
  const names = {
    gravel_percent: 'gravel',
    sand_very_coarse_percent: 'very coarse sand',
    sand_coarse_percent: 'coarse sand',
    sand_medium_percent: 'medium sand',
    sand_fine_percent: 'fine sand',
    sand_very_fine_percent: 'very fine sand',
    sand_percent: 'sand',
    silt_percent: 'silt',
    clay_percent: 'clay',
  };
  for (const row of rowsOf('sweet_hall.csv')) {
    const made = grainClasses(
      Object.entries(names).map(([column, name]) => ({
        id: column,
        name,
        ...sizeRange(name, 'wentworth')!,
        amount: Number(row[column]),
        sigma: null,
        is_limit: false,
      })),
      false,
    );
    assert.deepEqual(made.faults, []);
    assert.equal(made.classes.length, 8);
    near(made.sum_percent!, 100, 1e-6);
    const found = grainStatistics(made, SIZE_SCALES.wentworth)!;
    near(found.parts.sand!, Number(row['sand_percent']), 1e-6);
    near(found.parts.silt!, Number(row['silt_percent']), 1e-6);
    near(found.parts.clay!, Number(row['clay_percent']), 1e-6);
    assert.deepEqual([found.folk_ward, found.moments, found.interpolated_mm], [null, null, []]);
    near(found.open_fine_percent, Number(row['clay_percent']), 1e-6);
    assert.match(textureName(found.parts)!, /^(clay|mud|silt)$/);
  }
});

test('no density of 789 published marsh samples is refused: solids never fill more than the volume', () => {
  const rows = rowsOf('marsh_densities.csv');
  assert.equal(rows.length, 789);
  const refused = rows.filter((row) => {
    const dry = Number(row['dry_density_g_cm3']);
    const burnt = dry * (1 - Number(row['organic_fraction']));
    const { faults } = fromPanWeights({
      pan: null,
      wet: null,
      dry: { value: dry, sigma: null },
      burnt: { value: burnt, sigma: null },
      volume: { value: 1, sigma: null },
    });
    return faults.length > 0;
  });
  assert.deepEqual(refused, []);
});

test('Folk & Ward of a printed example: EM 1110-2-1100, III-1-1, which divides by 6.0 where they divide by 6.6', () => {
  const found = folkWard([0.56, 0.8, 0.93, 1.37, 1.87, 2.08, 2.48])!;
  near(found.mean_phi, 1.42, 0.005);
  near(found.skewness, 0.13, 0.005);
  near(found.kurtosis, 0.84, 0.005);
  // Printed 0.64 with 6.0 in the divisor: the same percentiles with it, and what 6.6 makes of them (computed outside).
  near((2.08 - 0.8) / 4 + (2.48 - 0.56) / 6, 0.64, 0.005);
  near(found.sorting_phi, 0.6109, 5e-5);
  assert.deepEqual(
    [found.sorting_class, found.skewness_class, found.kurtosis_class],
    ['moderately well sorted', 'fine skewed', 'platykurtic'],
  );
});

test('moments of five classes, computed outside the product', () => {
  // Classes 0 to 5 φ with 5, 20, 45, 25, 5 %: numpy gives 2.55, 0.92060, −0.09901, 2.85794.
  const found = moments(
    [5, 20, 45, 25, 5].map((percent, i) => ({ coarser_phi: i, finer_phi: i + 1, percent })),
  )!;
  near(found.mean_phi, 2.55, 1e-12);
  near(found.sd_phi, 0.9206, 5e-6);
  near(found.skewness, -0.09901, 5e-6);
  near(found.kurtosis, 2.85794, 5e-6);
  assert.equal(found.is_closed, false);
});
