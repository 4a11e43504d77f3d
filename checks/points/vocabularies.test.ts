/** The vocabularies against their sources and each other. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  contacts,
  environments,
  fossils,
  indicatorTypes,
  pipeSizes,
  sampleMaterials,
  sediments,
  structures,
} from '@stillstand/published/vocabularies';
import { grainSizeClasses, phiFromMillimetres, sizeClass, sizeRange } from '@stillstand/science/laboratory';
import { readTable } from './table.ts';

test('every meaning said to be in the dataset is in it, and none of its meanings is missing', () => {
  const meaning = 'indicative_meaning';
  const rows = readTable(new URL('./data/seasia_points.csv', import.meta.url));
  const inDataset = new Set(rows.map((row) => row[meaning]));
  const ours = new Set(
    indicatorTypes
      .filter((type) => type.status === 'in_dataset')
      .map(({ kind, lower, upper }) =>
        kind === 'terrestrial'
          ? `above ${lower}`
          : kind === 'marine'
            ? `below ${upper}`
            : `${upper} to ${lower}`,
      ),
  );
  assert.deepEqual([...ours].sort(), [...inDataset].sort());
});

test('pipe masses are those of their diameters and walls', () => {
  // ASME B36.10M: 0.0246615 (D − t) t kg/m, carried at two decimals.
  for (const { outside_diameter_mm: d, wall_mm: t, mass_kg_per_m } of pipeSizes) {
    assert.ok(Math.abs(0.0246615 * (d - t) * t - mass_kg_per_m) <= 0.0051, `${d} mm`);
  }
});

test('grain size classes follow each other without gap and agree in φ and millimetres', () => {
  grainSizeClasses.forEach((c, i) => {
    assert.equal(c.phi_coarser_limit, grainSizeClasses[i - 1]?.phi_finer_limit ?? null);
    assert.equal(c.mm_max, grainSizeClasses[i - 1]?.mm_min ?? null);
    // A class of an analysis that is called so.
    const read = sizeRange(c.name, 'wentworth')!;
    for (const end of ['coarser', 'finer'] as const) {
      const [phi, limit] = [read[`${end}_phi`], c[`phi_${end}_limit`]];
      assert.ok(phi === limit || Math.abs(phi! - limit!) < 1e-12, c.name);
    }
    if (c.mm_min !== null) {
      assert.ok(Math.abs(phiFromMillimetres(c.mm_min) - (c.phi_finer_limit ?? Number.NaN)) < 1e-12);
      assert.equal(sizeClass(c.mm_min, grainSizeClasses), c);
    }
  });
  // Wentworth 1922: sand is 1/16 to 2 mm, clay finer than 1/256 mm.
  assert.equal(sizeClass(0.2, grainSizeClasses)?.name, 'fine sand');
  assert.equal(sizeClass(0.001, grainSizeClasses)?.name, 'clay');
});

test('FGDC numbers are those of section 37: peat 657, not coal 658; gravel, sand, silt, clay, diamicton', () => {
  const numbers = Object.fromEntries(sediments.map((s) => [s.word, s.fgdc_number]));
  assert.deepEqual(
    ['peat', 'gravel', 'sand', 'silt', 'clay', 'diamicton', 'shell bed'].map((word) => numbers[word]),
    [657, 601, 607, 616, 620, 681, 652],
  );
});

test('every list has each word once, and sediments name size classes that are there', () => {
  const lists: Record<string, string[]> = {
    contacts: contacts.map((w) => w.word),
    structures: structures.map((w) => w.word),
    fossils: fossils.map((w) => w.word),
    environments: environments.map((w) => w.word),
    sediments: sediments.map((s) => s.word),
    materials: sampleMaterials.map((m) => m.word),
    indicators: indicatorTypes.map((t) => t.indicator),
  };
  for (const [name, list] of Object.entries(lists)) assert.equal(new Set(list).size, list.length, name);
  for (const { word, size_class } of sediments) {
    assert.ok(size_class === null || grainSizeClasses.some((c) => c.name === size_class), word);
  }
});
