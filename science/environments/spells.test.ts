import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { column, type MadeLayer } from './hand-made.ts';
import { type Spell, spells } from './spells.ts';

const said = (made: readonly Spell[]) =>
  made.map(({ kind, environment, layers, ended_cal_bp, began_cal_bp }) => [
    kind,
    environment,
    layers.join('+'),
    ended_cal_bp[0],
    began_cal_bp[0],
  ]);

const marsh: MadeLayer = { environment: 'marsh', depth_m: [0, 1], age_cal_bp: [100, 500] };

test('of one layer: since it, it, and before it', () => {
  const made = spells(column('A', [marsh]), [0, 100, 499, 500]);
  assert.deepEqual(said(made), [
    ['since', null, '', -Infinity, 100],
    ['environment', 'marsh', '1', 100, 500],
    ['before', null, '', 500, Infinity],
  ]);
  // An age equal to a boundary belongs to what began there, going back in time.
  assert.deepEqual(
    made.map(({ probability }) => [...probability]),
    [
      [1, 0, 0, 0],
      [0, 1, 1, 0],
      [0, 0, 0, 1],
    ],
  );
});

test('between two layers that meet time is missing, between two that do not the core is', () => {
  const below = (top_m: number): MadeLayer => ({
    environment: 'lagoon',
    depth_m: [top_m, 2],
    age_cal_bp: [800, 900],
  });
  assert.deepEqual(said(spells(column('A', [marsh, below(1)]), [])).slice(1, 4), [
    ['environment', 'marsh', '1', 100, 500],
    ['missing', null, '', 500, 800],
    ['environment', 'lagoon', '2', 800, 900],
  ]);
  assert.deepEqual(said(spells(column('A', [marsh, below(1.2)]), []))[2], ['unseen', null, '', 500, 800]);
  // Less than half a year between them is none: the lower one lasted until the upper one began.
  const soon: MadeLayer = { environment: 'lagoon', depth_m: [1, 2], age_cal_bp: [500.4, 900] };
  assert.deepEqual(said(spells(column('A', [marsh, soon]), [])).slice(1, 3), [
    ['environment', 'marsh', '1', 100, 500],
    ['environment', 'lagoon', '2', 500, 900],
  ]);
});

test('a bed laid down at once parts no spell, between two layers or on top', () => {
  const bed = (top_m: number, base_m: number, age: number): MadeLayer => ({
    environment: 'washover',
    depth_m: [top_m, base_m],
    age_cal_bp: [age, age],
    isAtOnce: true,
  });
  const lower: MadeLayer = { environment: 'marsh', depth_m: [1.5, 2], age_cal_bp: [500, 700] };
  assert.deepEqual(said(spells(column('A', [bed(-0.3, 0, 100), marsh, bed(1, 1.5, 500), lower]), [])), [
    ['since', null, '', -Infinity, 100],
    ['environment', 'marsh', '2+4', 100, 700],
    ['before', null, '', 700, Infinity],
  ]);
  // A gap of the core above the bed is one between the layers that the bed parts.
  const deeper: MadeLayer = { environment: 'lagoon', depth_m: [2, 3], age_cal_bp: [800, 900] };
  assert.equal(spells(column('A', [marsh, bed(1.2, 2, 600), deeper]), [])[2]!.kind, 'unseen');
  assert.equal(spells(column('A', [marsh, bed(1, 2, 600), deeper]), [])[2]!.kind, 'missing');
});

test('environments that nobody said are one spell that is not said; a hole of beds alone has none', () => {
  const unsaid = (top_m: number, age: number): MadeLayer => ({
    environment: null,
    depth_m: [top_m, top_m + 1],
    age_cal_bp: [age, age + 100],
  });
  assert.deepEqual(said(spells(column('A', [unsaid(0, 0), unsaid(1, 100)]), []))[1], [
    'environment',
    null,
    '1+2',
    0,
    200,
  ]);
  assert.deepEqual(spells(column('A', [{ ...marsh, isAtOnce: true }]), [0]), []);
});

test('probabilities at one age add to one, whatever the layers and the draws', () => {
  const layer = fc.record({
    environment: fc.constantFrom('marsh', 'lagoon', null),
    isAtOnce: fc.boolean(),
    gap: fc.double({ min: 0, max: 300, noNaN: true }),
    years: fc.double({ min: 0, max: 400, noNaN: true }),
    error: fc.double({ min: 0, max: 0.9, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(layer, { minLength: 1, maxLength: 6 }), (all) => {
      const draws = 7;
      let [depth, ages] = [0, Array.from({ length: draws }, () => 0)];
      const made = all.map(({ environment, isAtOnce, gap, years, error }): MadeLayer => {
        // Draw by draw another pace; ages never fall with depth.
        const older = (by: number) => ages.map((age, k) => age + by * (1 - error * (k / draws)));
        const top = older(gap);
        ages = top;
        const base = isAtOnce ? top : older(years);
        ages = base;
        depth += 1;
        return { environment, isAtOnce, depth_m: [depth - 1, depth], age_cal_bp: [top, base] };
      });
      const of = column('A', made, { draws });
      const asked = [-10, 0, 50, 123.4, 400, 1000, 5000];
      const found = spells(of, asked);
      if (found.length === 0) return all.every(({ isAtOnce }) => isAtOnce);
      // Neighbours without time between them meet: one begins where the next ends.
      for (let i = 1; i < found.length; i++)
        for (let k = 0; k < draws; k++)
          if (found[i]!.ended_cal_bp[k] !== found[i - 1]!.began_cal_bp[k]) return false;
      return asked.every(
        (_, i) => Math.abs(found.reduce((sum, { probability }) => sum + probability[i]!, 0) - 1) < 1e-12,
      );
    }),
    { numRuns: 300, seed: 17 },
  );
});
