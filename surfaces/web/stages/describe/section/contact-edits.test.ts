/** Edits of contacts: one row each, in the tables' own cells. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { SectionResult } from '@stillstand/campaign/results';
import { breakTie, freeLine, liftOf, sayOf, unsay } from './contact-edits.ts';
import { type Contact, choicesOf, contactsToEdit, fractionOf, nameOf } from './contacts.ts';

const row = (row_id: string, cells: Record<string, string>) =>
  ({ row_id, cells }) as Parameters<typeof sayOf>[2]['lines'][number];

const contact = (parts: Partial<Contact>): Contact => ({
  hole_a: 'H2',
  unit_a: '3',
  unit_a_row_id: 'u23',
  hole_b: null,
  unit_b: null,
  unit_b_row_id: null,
  horizon: null,
  confidence: null,
  ending: 'unknown',
  is_erosional: false,
  is_lateral: false,
  line: [
    { along_m: 100, elevation_m: -2 },
    { along_m: 140, elevation_m: -2.4 },
  ],
  tie: null,
  boundary: null,
  ...parts,
});

const section = (contacts: readonly Contact[], line: string | null = null): SectionResult => ({
  line,
  row_id: null,
  holes: ['H1', 'H2', 'H3'].map((hole, i) => ({ hole, along_m: 100 * i, offset_m: 0 })),
  distances: 'measured',
  length_m: 200,
  ground: [],
  is_profiled: false,
  bodies: [],
  contacts,
  queries: [],
  time_lines: [],
});

test('a contact that ends is between its hole and the next one on its way', () => {
  const towards = contactsToEdit(section([contact({})]))[0]!;
  assert.equal(nameOf(towards), 'Base of H2 unit 3 towards H3');
  assert.equal(fractionOf(towards), 0.4);
  const back = contactsToEdit(
    section([
      contact({
        line: [
          { along_m: 25, elevation_m: -2 },
          { along_m: 100, elevation_m: -2 },
        ],
      }),
    ]),
  )[0]!;
  assert.equal(back.hole_b, 'H1');
  assert.equal(fractionOf(back), 0.75);
  // Beyond the last hole nothing is edited.
  const beyond = contact({
    hole_a: 'H3',
    line: [
      { along_m: 200, elevation_m: 0 },
      { along_m: 210, elevation_m: 0 },
    ],
  });
  assert.deepEqual(contactsToEdit(section([beyond])), []);
});

test('the first edit of the line through all holes writes the line too; an edit before it is computed writes no second row', () => {
  const of = section([contact({})]);
  const each = contactsToEdit(of)[0]!;
  const edits = sayOf(each, of, { lines: [], boundaries: [] }, { ending: 'pinch_out', at_fraction: 0.3 });
  assert.deepEqual(edits, [
    { change: 'add', table: 'section_lines', cells: { line: 'A', holes: 'H1; H2; H3' } },
    {
      change: 'add',
      table: 'section_boundaries',
      cells: {
        line: 'A',
        horizon: 'u23',
        hole_a: 'H2',
        hole_b: 'H3',
        ending: 'pinch_out',
        at_fraction: '0.3',
      },
    },
  ]);
  const cells = edits.map((edit) => (edit.change === 'add' ? edit.cells : {}));
  const rows = { lines: [row('l', cells[0]!)], boundaries: [row('b', cells[1]!)] };
  assert.deepEqual(sayOf(each, of, rows, { lift_m: 0.123 }), [
    { change: 'edit', table: 'section_boundaries', row_id: 'b', cells: { lift_m: '0.12' } },
  ]);
});

test('a place is written from the first hole of its row, and stays off both holes', () => {
  const drawn = contact({ boundary: 'b' });
  const of = section([drawn], 'A');
  const each = contactsToEdit(of)[0]!;
  const rows = (hole_a: string) => ({
    lines: [],
    boundaries: [row('b', { hole_a, hole_b: '', lift_m: '−0.4' })],
  });
  const placed = (hole_a: string, at_fraction: number) => {
    const [edit] = sayOf(each, of, rows(hole_a), { at_fraction });
    return edit?.change === 'edit' ? edit.cells['at_fraction'] : null;
  };
  assert.equal(placed('H2', 0.25), '0.25');
  assert.equal(placed('H3', 0.25), '0.75');
  assert.equal(placed('H2', 1.4), '0.95');
  assert.equal(liftOf(each, rows('H2')), -0.4);
  assert.deepEqual(unsay(each), [{ change: 'remove', table: 'section_boundaries', row_id: 'b' }]);
});

test('a correlation is broken in its own row, and takes a contact through until then', () => {
  const of = section([
    contact({ hole_b: 'H3', unit_b: '2', unit_b_row_id: 'u32', tie: 'k', ending: 'continuous' }),
  ]);
  const each = contactsToEdit(of)[0]!;
  assert.deepEqual(breakTie(each), [
    { change: 'edit', table: 'correlations', row_id: 'k', cells: { status: 'refused' } },
  ]);
  assert.deepEqual(choicesOf(each), ['continuous', 'unknown']);
});

test('a new line is called by the first free letter, then by a number', () => {
  assert.equal(freeLine([row('1', { line: 'a' }), row('2', { line: 'C' })]), 'B');
  const all = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].map((line, i) => row(String(i), { line }));
  assert.equal(freeLine(all), '1');
});
