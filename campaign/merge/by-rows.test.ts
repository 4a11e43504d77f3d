import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  type CampaignDocument,
  newDocument,
  readingOf,
  withRows,
  writeFiles,
} from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { tablet } from './fixtures/tablet.ts';
import { planMerge } from './index.ts';

type Rows = readonly Readonly<Record<string, string>>[];

const campaign = (tables: Partial<Record<TableName, Rows>>): CampaignDocument =>
  Object.entries(tables).reduce(
    (document, [table, rows]) => withRows(document, table as TableName, rows),
    newDocument('spit', 'id'),
  );

const HOLES = [{ hole: 'H1', row_id: 'h' }];
/** Two copies that were typed apart. */
const apart = (here: Partial<Record<TableName, Rows>>, there: Partial<Record<TableName, Rows>>) => ({
  a: tablet('A', campaign({ holes: HOLES, ...here })),
  b: tablet('B', campaign({ holes: HOLES, ...there })),
});

test('rows only there come, rows only here stay, an empty cell is filled; twice is as once', () => {
  const { a, b } = apart(
    {
      units: [
        { hole: 'H1', unit: '1', sediment: 'sand', row_id: 'u1' },
        { hole: 'H1', unit: '3', row_id: 'u3' },
      ],
      soundings: [{ hole: 'H1', seq: '1', to_sediment: '1 m', row_id: 's1' }],
    },
    {
      units: [
        { hole: 'H1', unit: '1', colour: '10YR 2/1', row_id: 'u1' },
        { hole: 'H1', unit: '2', row_id: 'u2' },
      ],
      soundings: [{ hole: 'H1', seq: '2', to_sediment: '2 m', row_id: 's2' }],
    },
  );
  const plan = a.plan(b);
  assert.equal(plan.by, 'rows');
  assert.equal(plan.relation, 'both changed');
  assert.deepEqual(plan.conflicts, []);
  assert.deepEqual(
    plan.came.map(({ table, added, changed }) => [table, added, changed]),
    [
      ['soundings', 1, 0],
      ['units', 1, 1],
    ],
  );
  a.merge(b);
  const ids = (table: TableName) => a.edits.rows(table).map(({ row_id }) => row_id);
  assert.deepEqual(
    [ids('units'), ids('soundings')],
    [
      ['u1', 'u3', 'u2'],
      ['s1', 's2'],
    ],
  );
  assert.deepEqual(
    [a.cell('units', 'u1', 'sediment'), a.cell('units', 'u1', 'colour')],
    ['sand', '10YR 2/1'],
  );
  assert.equal(a.acts.all().at(-1)?.how, 'merged');
  const once = writeFiles(a.document());
  const acts = a.acts.all().length;
  assert.equal(a.plan(b).relation, 'ours ahead');
  a.merge(b);
  assert.deepEqual(writeFiles(a.document()), once);
  assert.equal(a.acts.all().length, acts);
});

test('a cell that says two things stays until it is decided; a choice of the copy is one edit', () => {
  const { a, b } = apart(
    { units: [{ hole: 'H1', unit: '1', sediment: 'sand', row_id: 'u1' }] },
    { units: [{ hole: 'H1', unit: '1', sediment: 'peat', row_id: 'u1' }] },
  );
  const [conflict, ...others] = a.plan(b).conflicts;
  assert.deepEqual(others, []);
  assert.equal(conflict?.name, 'Hole H1, unit 1: sediment');
  assert.deepEqual(
    conflict?.sides.map(({ side, value }) => [side, value]),
    [
      ['ours', 'sand'],
      ['theirs', 'peat'],
    ],
  );
  a.merge(b);
  assert.equal(a.cell('units', 'u1', 'sediment'), 'sand');
  a.merge(b, new Map([[conflict!.key, 'theirs']]));
  assert.equal(a.cell('units', 'u1', 'sediment'), 'peat');
  assert.deepEqual(a.plan(b).conflicts, []);
});

test('a reading that says two things is never rewritten: the choice comes as an amendment, once', () => {
  const { a, b } = apart(
    { soundings: [{ hole: 'H1', seq: '1', to_sediment: '1.25 m', row_id: 's1' }] },
    { soundings: [{ hole: 'H1', seq: '1', to_sediment: '1.52 m', row_id: 's1' }] },
  );
  const [conflict, ...others] = a.plan(b).conflicts;
  assert.deepEqual(others, []);
  assert.equal(conflict?.until, 'The reading stays as it is here until this is decided.');
  a.merge(b);
  const reading = () => readingOf('soundings', a.edits.rows('soundings'), 's1')!;
  assert.equal(reading().state, 'written');
  a.merge(b, new Map([[conflict!.key, 'theirs']]));
  assert.equal(reading().now?.cells['to_sediment'], '1.52 m');
  assert.equal(reading().first.cells['to_sediment'], '1.25 m');
  assert.deepEqual(a.plan(b).conflicts, []);
  a.merge(b, new Map([[conflict!.key, 'theirs']]));
  assert.equal(reading().rows.length, 2);
});

test('a hole of two names is one conflict, however many rows name it', () => {
  const units = (hole: string) => ['1', '2'].map((unit) => ({ hole, unit, row_id: `u${unit}` }));
  const a = tablet('A', campaign({ holes: [{ hole: 'North', row_id: 'h' }], units: units('North') }));
  const b = tablet('B', campaign({ holes: [{ hole: 'South', row_id: 'h' }], units: units('South') }));
  const { conflicts } = a.plan(b);
  assert.deepEqual(
    conflicts.map(({ name }) => name),
    ['Hole North: hole, and in 2 units'],
  );
  a.merge(b, new Map([[conflicts[0]!.key, 'theirs']]));
  assert.deepEqual(
    [a.cell('holes', 'h', 'hole'), a.cell('units', 'u1', 'hole'), a.cell('units', 'u2', 'hole')],
    ['South', 'South', 'South'],
  );
});

test('rows that state no identity are known by what they are called', () => {
  const a = tablet('A', campaign({ holes: [{ hole: 'H1' }] }));
  const b = tablet('B', campaign({ holes: [{ hole: 'H1', note: 'by the creek' }, { hole: 'H2' }] }));
  a.merge(b);
  assert.deepEqual(
    a.edits.rows('holes').map(({ cells }) => [cells['hole'], cells['note'] ?? '']),
    [
      ['H1', 'by the creek'],
      ['H2', ''],
    ],
  );
});

test('with a base only what both changed is to be decided, and what the copy deleted goes', () => {
  const unit = (unit: string, cells: Record<string, string>) => ({
    hole: 'H1',
    unit,
    row_id: `u${unit}`,
    ...cells,
  });
  const base = tablet(
    'base',
    campaign({
      holes: HOLES,
      units: [
        unit('1', { sediment: 'sand' }),
        unit('2', { sediment: 'sand' }),
        unit('3', { sediment: 'sand' }),
        unit('4', {}),
        unit('5', {}),
      ],
      soundings: [
        { hole: 'H1', seq: '1', to_sediment: '1 m', row_id: 's1' },
        { hole: 'H1', seq: '2', to_sediment: '2 m', row_id: 's2' },
      ],
    }),
  );
  const { a, b } = apart(
    {
      units: [
        unit('1', { sediment: 'peat' }),
        unit('2', { sediment: 'sand' }),
        unit('3', { sediment: 'clay' }),
        unit('4', {}),
        unit('5', { note: 'looked at again' }),
      ],
      soundings: [
        { hole: 'H1', seq: '1', to_sediment: '1 m', row_id: 's1' },
        { hole: 'H1', seq: '2', to_sediment: '2 m', row_id: 's2' },
      ],
    },
    {
      units: [
        unit('1', { sediment: 'sand' }),
        unit('2', { sediment: 'silt' }),
        unit('3', { sediment: 'gyttja' }),
      ],
      soundings: [{ hole: 'H1', seq: '1', to_sediment: '1.10 m', row_id: 's1' }],
    },
  );
  const plan = planMerge(a.side, b.side, base.side);
  assert.deepEqual(
    plan.conflicts.map(({ name, was, sides }) => [name, was, sides.map(({ value }) => value)]),
    [['Hole H1, unit 3: sediment', 'sand', ['clay', 'gyttja']]],
  );
  assert.match(
    plan.notes.map(({ words }) => words).join('\n'),
    /Hole H1, unit 5 was deleted in the copy and changed here/,
  );
  assert.match(
    plan.notes.map(({ words }) => words).join('\n'),
    /sounding number 2 is not in the copy any more/,
  );
  a.merge(b, new Map(), base);
  assert.deepEqual(
    a.edits.rows('units').map(({ row_id, cells }) => [row_id, cells['sediment']]),
    [
      ['u1', 'peat'],
      ['u2', 'silt'],
      ['u3', 'clay'],
      ['u5', ''],
    ],
  );
  assert.equal(readingOf('soundings', a.edits.rows('soundings'), 's1')?.now?.cells['to_sediment'], '1.10 m');
  assert.equal(a.edits.rows('soundings').length, 3);
  const once = writeFiles(a.document());
  a.merge(b, new Map(), base);
  assert.deepEqual(writeFiles(a.document()), once);
});

test('numbers come with the decimal sign of the table here', () => {
  const written = (sign: string) => {
    const document = campaign({
      holes: HOLES,
      units: [{ hole: 'H1', unit: '1', top: `1${sign}5 m`, row_id: 'u1' }],
    });
    const units = document.tables.get('units')!;
    const dialect = {
      ...units.dialect,
      decimal_comma: sign === ',',
      delimiter: sign === ',' ? (';' as const) : (',' as const),
    };
    return {
      ...document,
      tables: new Map(document.tables).set('units', { ...units, dialect }),
    };
  };
  const a = tablet('A', written(','));
  const b = tablet('B', written('.'));
  assert.deepEqual(a.plan(b).conflicts, []);
  b.edits.addRow('units', { hole: 'H1', unit: '2', top: '2.25 m', row_id: 'u2' });
  a.merge(b);
  assert.equal(a.cell('units', 'u2', 'top'), '2,25 m');
});

test('two devices that both took the rows of a third, and then meet, have each row once', () => {
  const { a, b } = apart(
    {},
    {
      units: [
        { hole: 'H1', unit: '1', sediment: 'sand', row_id: 'u1' },
        { hole: 'H1', unit: '2', sediment: 'sand', row_id: 'u2' },
      ],
      soundings: [{ hole: 'H1', seq: '1', to_sediment: '1 m', row_id: 's1' }],
    },
  );
  const a2 = tablet('A2', a.doc);
  a2.edits.addRow('units', { hole: 'H1', unit: '9', row_id: 'u9' });
  a.merge(b);
  a2.merge(b);
  a.edits.editRow('units', 'u1', { colour: '10YR 2/1' });
  a2.edits.editRow('units', 'u1', { sediment: 'peat' });
  a2.edits.editRow('units', 'u2', { sediment: 'clay' });
  a.edits.editRow('units', 'u2', { sediment: 'silt' });
  a.merge(a2);
  a2.merge(a);
  a.merge(a2);
  for (const each of [a, a2]) {
    assert.deepEqual(
      each.edits
        .rows('units')
        .map(({ row_id }) => row_id)
        .sort(),
      ['u1', 'u2', 'u9'],
    );
    assert.equal(each.edits.rows('soundings').length, 1);
    assert.deepEqual(
      [each.cell('units', 'u1', 'sediment'), each.cell('units', 'u1', 'colour')],
      ['peat', '10YR 2/1'],
    );
    assert.deepEqual(
      each.acts.conflicts().map(({ row_id, column }) => [row_id, column]),
      [['u2', 'sediment']],
    );
  }
  assert.deepEqual(writeFiles(a.document()), writeFiles(a2.document()));
});
