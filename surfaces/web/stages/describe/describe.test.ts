import assert from 'node:assert/strict';
import { test } from 'node:test';
import { coresOf } from '@stillstand/campaign/chain';
import { parseLength } from '@stillstand/campaign/tables';
import fc from 'fast-check';
import { demoResults, demoRows, memoryStore } from '../../store/fixtures/demo.ts';
import {
  addUnit,
  carryOut,
  describeLayer,
  labelAfter,
  mergeLayers,
  moveContact,
  placeSample,
  removeLayer,
  renumber,
  splitLayer,
} from './edits.ts';
import { baseOf, basesOf, depthsOf, description, type Layer } from './layers.ts';
import { writtenLength } from './length.ts';
import { decision, nextBest, proposedOf } from './proposed.ts';
import { sidesAt, tiesOf } from './tie.ts';

const results = await demoResults();

const store = () =>
  memoryStore({
    units: demoRows('units'),
    correlations: demoRows('correlations'),
    samples: demoRows('samples'),
  });
type MemoryStore = ReturnType<typeof store>;

function seen(at: MemoryStore, hole: string) {
  const result = results.holes.find((h) => h.hole === hole)!;
  const rows = at.rows('units');
  return description(rows, hole, coresOf(result, basesOf(rows, hole)), {});
}

/** What stands in the tables, without the order and identity of rows. */
const told = (at: MemoryStore) =>
  at
    .rows('units')
    .map(({ cells: { row_id: _, ...cells } }) =>
      JSON.stringify(
        Object.entries(cells)
          .filter(([, c]) => c !== '')
          .sort(),
      ),
    )
    .sort();

/** Which contacts are tied, by the labels their units have now. */
const tied = (at: MemoryStore) =>
  tiesOf(at.rows('correlations'), at.rows('units'), results)
    .map(({ a, b }) => [a.hole, a.label, b.hole, b.label].join(' '))
    .sort();

test('layers drawn are the layers computed: same units, places in core and ground to 1 mm', () => {
  const at = store();
  for (const hole of results.holes) {
    const { layers, unplaced } = seen(at, hole.hole);
    assert.equal(unplaced.length, 0, hole.hole);
    assert.deepEqual(
      layers.map((layer) => layer.label),
      hole.units.map((unit) => unit.unit),
      hole.hole,
    );
    for (const [i, unit] of hole.units.entries()) {
      const layer = layers[i]!;
      const top = layer.pieces[0]!;
      assert.ok(
        Math.abs(top.core.enteredAt(top.top_m)! - unit.core_top_m!) < 0.001,
        `${hole.hole} ${unit.unit}`,
      );
      const base = baseOf(layer);
      assert.ok(Math.abs(base.core.enteredAt(base.bottom_m)! - unit.core_bottom_m!) < 0.001);
      const depths = depthsOf(layer);
      assert.ok(Math.abs(depths.top_m - unit.depth_top_m.value) < 0.001, `${hole.hole} ${unit.unit} top`);
      assert.ok(
        Math.abs(depths.bottom_m - unit.depth_bottom_m.value) < 0.001,
        `${hole.hole} ${unit.unit} base`,
      );
    }
  }
});

test('a contact between two pieces of a core is one; the ends of what is described are apart', () => {
  const { contacts, ends, gaps } = seen(store(), 'T2');
  const inR13 = contacts.filter((c) => c.core.run === 'R13');
  assert.deepEqual(
    inR13.map((c) => [c.above!.row.cells['unit'], c.below!.row.cells['unit'], c.at_m]),
    [
      ['7', '8', 0.74],
      ['8', '9', 0.91],
    ],
  );
  assert.equal(ends.filter((c) => c.core.run === 'R13').length, 2);
  // 9 cm of fall-in is not described and is no gap; 1 cm at the top of R9 is one.
  assert.ok(!gaps.some((g) => g.core.run === 'R6'));
  assert.deepEqual(
    gaps.map((g) => [g.core.run, g.from_m, g.to_m]),
    [['R9', 0, 0.01]],
  );
});

test('moving a contact moves both units, keeps the unit typed and stops at the neighbours', () => {
  const at = store();
  const contact = seen(at, 'T2').contacts.find((c) => c.core.run === 'R13')!;
  carryOut(at, moveContact(contact, 0.8));
  const [a, b] = ['pb26rsx36x', '3bktr9pr35'].map(
    (id) => at.rows('units').find((r) => r.row_id === id)!.cells,
  );
  assert.equal(a!['bottom'], '0.80 m');
  assert.equal(b!['top'], '0.80 m');
  carryOut(at, moveContact(seen(at, 'T2').contacts.find((c) => c.core.run === 'R13')!, 5));
  assert.equal(at.rows('units').find((r) => r.row_id === 'pb26rsx36x')!.cells['bottom'], '0.906 m');
});

test('split, then merge: the tables stand as before, ties included', () => {
  const at = store();
  const before = [told(at), tied(at)];
  for (const hole of ['T2', 'T3', 'M1', 'M3']) {
    for (const layer of seen(at, hole).layers) {
      for (const piece of layer.pieces) {
        if (piece.bottom_m - piece.top_m < 0.001) continue;
        const d = seen(at, hole);
        const fresh = d.layers.find((l) => l.id === layer.id)!;
        const labels = d.layers.map((l) => l.label);
        const middle = (piece.top_m + piece.bottom_m) / 2;
        const freshPiece = fresh.pieces.find((p) => p.row.row_id === piece.row.row_id)!;
        const tiesAt = (of: Layer) =>
          at.rows('correlations').filter((t) => sidesAt(t, hole, of).length > 0).length;
        const tiedBefore = tiesAt(fresh);
        const [above] = carryOut(
          at,
          splitLayer(fresh, freshPiece, middle, labels, hole, at.rows('correlations')),
        )!;
        const parted = seen(at, hole).layers;
        const i = parted.findIndex((l) => l.pieces.some((p) => p.row.row_id === above));
        assert.equal(parted.length, d.layers.length + 1);
        assert.equal(parted[i + 1]!.label, `${layer.label}b`);
        // What was tied to the base of the unit is tied to the base of its lower part.
        assert.deepEqual([tiesAt(parted[i]!), tiesAt(parted[i + 1]!)], [0, tiedBefore]);
        carryOut(at, mergeLayers(parted[i]!, parted[i + 1]!, hole, at.rows('correlations')));
      }
    }
  }
  assert.deepEqual([told(at), tied(at)], before);
});

test('merging gives the upper words and the lower base; ties of the contact between go', () => {
  const at = store();
  const { layers } = seen(at, 'T3');
  const [upper, lower] = [layers.find((l) => l.label === '9')!, layers.find((l) => l.label === '10')!];
  carryOut(at, mergeLayers(upper, lower, 'T3', at.rows('correlations')));
  const now = seen(at, 'T3').layers;
  assert.equal(now.length, layers.length - 1);
  const merged = now.find((l) => l.label === '9')!;
  assert.deepEqual(new Set(merged.pieces.map((p) => p.row.cells['sediment'])), new Set(['silt']));
  assert.equal(baseOf(merged).row.cells['contact_below'], 'sharp');
  assert.equal(at.rows('correlations').filter((t) => sidesAt(t, 'T3', merged).length > 0).length, 2);
});

test('a unit added over a gap, or going on from above', () => {
  const at = store();
  const d = seen(at, 'T2');
  const labels = d.layers.map((l) => l.label);
  const [own] = carryOut(at, addUnit('T2', d.gaps[0]!, null, labels, 'm'))!;
  const row = at.rows('units').find((r) => r.row_id === own)!;
  assert.deepEqual(
    [row.cells['unit'], row.cells['sediment'], row.cells['top'], row.cells['bottom']],
    ['11', 'unknown', '0.00 m', '0.01 m'],
  );
  at.removeRow('units', own!);
  const above = d.layers.find((l) => l.label === '5')!;
  carryOut(at, addUnit('T2', d.gaps[0]!, above, labels, 'cm'));
  const grown = seen(at, 'T2').layers.find((l) => l.label === '5')!;
  assert.equal(grown.pieces.length, 2);
  assert.equal(grown.pieces[1]!.row.cells['fossils'], 'roots in place;seeds');
  assert.equal(grown.pieces[1]!.row.cells['bottom'], '1 cm');
});

test('words go to every row of a layer, its contact to the last; taking it out takes all', () => {
  const at = store();
  const layer = seen(at, 'T2').layers.find((l) => l.label === '9')!;
  carryOut(at, describeLayer(layer, { colour: 'dark', contact_below: 'uncertain' }));
  const rows = layer.pieces.map((p) => at.rows('units').find((r) => r.row_id === p.row.row_id)!.cells);
  assert.deepEqual(
    rows.map((c) => [c['colour'], c['contact_below']]),
    [
      ['dark', ''],
      ['dark', 'uncertain'],
    ],
  );
  carryOut(at, removeLayer(layer, 'T2', at.rows('correlations')));
  assert.equal(seen(at, 'T2').layers.length, 9);
  assert.ok(!at.rows('correlations').some((t) => sidesAt(t, 'T2', layer).length > 0));
});

test('renumbering follows the depths and keeps the ties', () => {
  const at = store();
  let layers = seen(at, 'T3').layers;
  carryOut(
    at,
    splitLayer(
      layers[4]!,
      layers[4]!.pieces[0]!,
      0.85,
      layers.map((l) => l.label),
      'T3',
      at.rows('correlations'),
    ),
  );
  layers = seen(at, 'T3').layers;
  carryOut(at, renumber(layers, 'T3', at.rows('correlations')));
  assert.deepEqual(
    seen(at, 'T3').layers.map((l) => l.label),
    Array.from({ length: 12 }, (_, i) => String(i + 1)),
  );
  const base = layers.find((l) => l.label === '10')!;
  const [eleventh] = seen(at, 'T3').layers.filter((l) => l.label === '11');
  assert.equal(eleventh!.id, base.id);
  assert.equal(at.rows('correlations').filter((t) => sidesAt(t, 'T3', eleventh!).length > 0).length, 2);
});

test('a sample gets the next free label and lies within its core', () => {
  const at = store();
  const core = seen(at, 'T2').layers[0]!.pieces[0]!.core;
  const [id] = carryOut(at, placeSample('T2', core, 9, at.rows('samples'), 'm'))!;
  const { cells } = at.rows('samples').find((r) => r.row_id === id)!;
  assert.deepEqual([cells['sample'], cells['top'], cells['bottom']], ['T2-11', '1.01 m', '1.03 m']);
});

test('lengths written in any unit are read back within what the tape shows (fast-check seed 5)', () => {
  const half = { m: 0.0005, cm: 0.0005, mm: 0.0005, ft: 0.0254 / 16, in: 0.0254 / 16 } as const;
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 30, noNaN: true }),
      fc.constantFrom('m', 'cm', 'mm', 'ft', 'in'),
      (m, unit) => {
        const read = parseLength(writtenLength(m, unit));
        assert.ok(read.ok, writtenLength(m, unit));
        assert.ok(Math.abs(read.metres - m) <= half[unit] * 1.0001, `${m} ${writtenLength(m, unit)}`);
        assert.equal(read.unit, unit);
      },
    ),
    { seed: 5 },
  );
});

test('labels of parted units never collide', () => {
  assert.equal(labelAfter('2', ['1', '2', '3']), '2b');
  assert.equal(labelAfter('2b', ['1', '2', '2b', '3']), '2c');
  assert.equal(labelAfter('', ['1', '4']), '5');
});

const thinnest = (layers: readonly Layer[]): number =>
  Math.min(...layers.flatMap((l) => l.pieces.map((p) => p.bottom_m - p.top_m)));

test('any moves, splits and merges keep pieces in order and of positive thickness (fast-check seed 11)', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(
          fc.constantFrom('move', 'split', 'merge'),
          fc.nat(99),
          fc.double({ min: -0.2, max: 1.4, noNaN: true }),
        ),
        {
          maxLength: 12,
        },
      ),
      (acts) => {
        const at = store();
        for (const [act, which, x] of acts) {
          const d = seen(at, 'T3');
          const labels = d.layers.map((l) => l.label);
          const all = [...d.contacts, ...d.ends];
          const layer = d.layers[which % d.layers.length]!;
          if (act === 'move') carryOut(at, moveContact(all[which % all.length]!, x));
          else if (act === 'split')
            carryOut(at, splitLayer(layer, layer.pieces[0]!, x, labels, 'T3', at.rows('correlations')));
          else {
            const next = d.layers[d.layers.indexOf(layer) + 1];
            if (next !== undefined) carryOut(at, mergeLayers(layer, next, 'T3', at.rows('correlations')));
          }
        }
        const { layers, unplaced } = seen(at, 'T3');
        assert.equal(unplaced.length, 0);
        assert.ok(thinnest(layers) > 0);
        for (const core of new Set(layers.flatMap((l) => l.pieces.map((p) => p.core)))) {
          const pieces = layers
            .flatMap((l) => l.pieces.filter((p) => p.core === core))
            .sort((a, b) => a.top_m - b.top_m);
          for (const [i, piece] of pieces.entries()) {
            if (i > 0) assert.ok(piece.top_m >= pieces[i - 1]!.bottom_m - 1e-9);
            assert.ok(piece.bottom_m <= core.length_m + 1e-9);
          }
        }
        for (const tie of at.rows('correlations')) {
          const here = (['a', 'b'] as const).filter((side) => tie.cells[`hole_${side}`] === 'T3');
          const found = layers.flatMap((layer) => sidesAt(tie, 'T3', layer));
          assert.deepEqual(found, here, JSON.stringify(tie.cells));
        }
      },
    ),
    { seed: 11, numRuns: 100 },
  );
});

test('a tie outlives a label given on another device, where one by label would be lost or pass to another unit', () => {
  const at = store();
  const ten = seen(at, 'T3').layers.find((l) => l.label === '10')!;
  at.addRow('correlations', { hole_a: 'T3', unit_a: ten.id, hole_b: 'M2', unit_b: '3' });
  // Merged from there: unit 10 is called 9, and unit 9 is called 10.
  for (const { row_id, cells } of at.rows('units').filter((row) => row.cells['hole'] === 'T3')) {
    const label = { '9': '10', '10': '9' }[cells['unit']!];
    if (label !== undefined) at.editRow('units', row_id, { unit: label });
  }
  const [tie] = tiesOf(at.rows('correlations').slice(-1), at.rows('units'), results);
  assert.equal(tie!.a.label, '9');
  assert.equal(tie!.a.row_id, ten.id);
  // A row that is gone leaves a tie that says so.
  at.removeRow('correlations', tie!.row.row_id);
  assert.deepEqual(
    tiesOf(
      [{ row_id: 'x', line: 2, cells: { hole_a: 'T3', unit_a: 'none', hole_b: 'M2', unit_b: '3' } }],
      at.rows('units'),
      results,
    ).map(({ a }) => [a.row_id, a.label]),
    [[null, 'none']],
  );
});

test('a proposal is gone once it is decided, typed either way round, and back when the decision is', () => {
  const at = store();
  const open = () => proposedOf(results, tiesOf(at.rows('correlations'), at.rows('units'), results));
  const [first, second] = open();
  const count = open().length;
  assert.ok(count > 2);
  carryOut(at, [{ change: 'add', table: 'correlations', cells: decision(first!, true) }]);
  assert.equal(open().length, count - 1);
  const { hole_a, unit_a, hole_b, unit_b, ...rest } = decision(second!, false);
  const mirrored = { hole_a: hole_b!, unit_a: unit_b!, hole_b: hole_a!, unit_b: unit_a!, ...rest };
  const [row_id] = carryOut(at, [{ change: 'add', table: 'correlations', cells: mirrored }])!;
  assert.equal(open().length, count - 2);
  carryOut(at, [{ change: 'edit', table: 'correlations', row_id: row_id!, cells: { status: 'proposed' } }]);
  assert.deepEqual(open()[0]!.id, second!.id);
  assert.match(nextBest(first!), /^Next best: .*\.$/);
});
