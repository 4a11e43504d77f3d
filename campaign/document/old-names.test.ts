import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type Column, schemas } from '@stillstand/campaign/tables';
import { readFiles } from './files.ts';
import { withNewNames } from './old-names.ts';
import { parseCampaign } from './parse/parse.ts';

const read = (files: Record<string, string>) =>
  readFiles(new Map(Object.entries(files).map(([path, text]) => [path, new TextEncoder().encode(text)])))
    .document;

const OLD = {
  'holes.csv': 'hole,method,offset_m,lean_deg,sealed_with\nH1,string,2,5,clay\n',
  'ground.csv': 'hole,seq,ground_below_reference\nH1,1,0.30 m\n',
  'joints.csv': 'hole,seq,action,item,joint,length\nH1,2,add,joint,J1,3.05 m\n',
  'settings.csv': 'name,value\ntie,off\nlean_percent,2\n',
};

test('names of before are read as those of today, tables, columns and words', () => {
  const { campaign, problems } = parseCampaign(read(OLD));
  assert.deepEqual(
    problems.filter(({ severity }) => severity !== 'note'),
    [],
  );
  const { holes, ground_levels, string_items } = campaign.rows;
  assert.deepEqual(
    [holes[0]!.distance_to_replaced_m, holes[0]!.inclination_deg, holes[0]!.backfill],
    [2, 5, 'clay'],
  );
  assert.equal(ground_levels[0]!.ground_below_reference_m, 0.3);
  assert.equal(string_items[0]!.joint, 'J1');
  assert.equal(campaign.settings.get('present_constraint'), 'off');
  assert.equal(campaign.settings.get('inclination_percent'), '2');
});

test('a document with the names of today is the very object', () => {
  const now = withNewNames(read(OLD));
  assert.equal(withNewNames(now), now);
});

test('an old name next to its new one is kept, not used in its place', () => {
  const { campaign, problems } = parseCampaign(
    read({
      'holes.csv': 'hole,method,lean_deg,inclination_deg\nH1,string,5,3\n',
      'ground.csv': 'hole,seq,ground_below_reference\nH1,1,0.30 m\n',
      'ground_levels.csv': 'hole,seq,ground_below_reference\nH1,1,0.40 m\n',
    }),
  );
  assert.equal(campaign.rows.holes[0]!.inclination_deg, 3);
  assert.deepEqual(
    campaign.rows.ground_levels.map((row) => row.ground_below_reference_m),
    [0.4],
  );
  const told = problems.map(({ code, found }) => `${code} ${found}`);
  assert.ok(
    told.some((t) => t.startsWith('unknown-column lean_deg')),
    told.join('; '),
  );
  assert.ok(
    told.some((t) => t.startsWith('unknown-table ground')),
    told.join('; '),
  );
});

test('no old name is a name of today, and none is taken for two', () => {
  const tables = Object.entries(schemas);
  const old = tables.flatMap(([, { was }]) => (was === null ? [] : [was]));
  assert.equal(new Set(old).size, old.length);
  for (const name of old) assert.ok(!Object.hasOwn(schemas, name), name);
  for (const [name, { columns }] of tables) {
    const was = Object.values<Column>(columns).flatMap((column) => column.was ?? []);
    assert.equal(new Set(was).size, was.length, name);
    for (const each of was) assert.ok(!Object.hasOwn(columns, each), `${name}.${each}`);
  }
});

test('what is not used yet is said, and kept', () => {
  const { problems } = parseCampaign(
    read({
      'units.csv': 'hole,unit,facies\nH1,1,marsh\nH1,2,\n',
      'training_sets.csv': 'set\nS1\n',
    }),
  );
  assert.deepEqual(
    problems.filter(({ code }) => code === 'not-used-yet').map(({ table, found }) => [table, found]),
    [
      ['units', '1 filled in'],
      ['training_sets', '1 rows'],
    ],
  );
});

/** As the last program that wrote version 1 derived them. */
const V1_IDS = [
  'd-04c1f0492d2d277ce890',
  'd-8d111881483d6ed8eaa2',
  'd-f6a75cd125c998c85637',
  'd-5a07154142fd95bc77fa',
  'd-8f6964a3c8a62a4241df',
  'd-93ece2e67cbbf42b6ed5',
];

test('a row without an id has the one that version 1 gave it, read under old names or new', () => {
  const old = read({
    ...OLD,
    'days.csv': 'date,crew\n2026-03-01,two\n',
    'units.csv': 'hole,basis,top,bottom,sediment,second\nH1,entered,0 m,1 m,peat,clay\n',
    'settings.csv': 'name,value\ntie,off\n',
  });
  const ids = (document: typeof old) => {
    const { holes, ground_levels, string_items, field_days, units, settings } =
      parseCampaign(document).campaign.rows;
    return [...holes, ...ground_levels, ...string_items, ...field_days, ...units, ...settings].map(
      (row) => row.row_id,
    );
  };
  assert.deepEqual(ids(old), V1_IDS);
  assert.deepEqual(ids(withNewNames(old)), V1_IDS);
});
