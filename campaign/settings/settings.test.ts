/** What the crew says of water and gear: taken as said, complained of where it cannot be, and never guessed. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type Row, settingName } from '@stillstand/campaign/tables';
import { datePlanOf, readSettings, SETTINGS } from './settings.ts';

const rows = (given: Record<string, string>): Row<'settings'>[] =>
  Object.entries(given).map(([name, value]) => ({ row_id: name, note: null, name, value }));

test('nothing said: sea water, an organic plug, a straight pull, and no load marked on anything', () => {
  const { settings, problems } = readSettings([]);
  assert.equal(settings.water_outside, 'sea');
  assert.equal(settings.plug_kind, 'organic');
  assert.deepEqual(settings.pulling, {
    parts: 1,
    sheaves: null,
    bearing: 'plain',
    hanging_kg: 0,
    rated_line_kn: null,
    rated_hook_kn: null,
    rated_head_kn: null,
    unusable: [],
  });
  assert.deepEqual(problems, []);
});

test('as said, and listed as no assumption', () => {
  const said = { water_outside: 'fresh', plug_kind: 'loose sand', line_parts: '4', rated_line_kn: '20.5' };
  const { settings, problems } = readSettings(rows(said));
  assert.equal(settings.water_outside, 'fresh');
  assert.equal(settings.plug_kind, 'loose sand');
  assert.equal(settings.pulling.parts, 4);
  assert.equal(settings.pulling.rated_line_kn, 20.5);
  assert.deepEqual(problems, []);
  for (const name of Object.keys(said))
    assert.equal(settings.listed.find((s) => s.name === name)?.assumed, false, name);
});

test('what cannot be: complained of, and no load takes the place of one that cannot be read', () => {
  const { settings, problems } = readSettings(
    rows({ water_outside: 'brackish', line_parts: '2.5', rated_line_kn: '20 kN', length_unit: 'ft' }),
  );
  assert.equal(settings.water_outside, 'sea');
  assert.equal(settings.pulling.parts, 1);
  assert.equal(settings.pulling.rated_line_kn, null);
  assert.deepEqual(
    problems.map((p) => p.label),
    ['water_outside', 'line_parts', 'rated_line_kn'],
  );
  assert.equal(settings.listed.find((s) => s.name === 'length_unit')?.value, 'ft');
  assert.deepEqual(
    settings.pulling.unusable.map((u) => u.words),
    [
      'Parts of line 2.5 is not a whole number',
      'Rated load: line “20 kN” is not a number from 0.01 to 10000',
    ],
  );
  assert.match(problems[1]!.fix, /until then no load is computed/);
});

test('depth: what is learned where nothing is said, and what a user fixes or leaves out', () => {
  const { settings: unsaid } = readSettings([]);
  assert.deepEqual([unsaid.layer_contrast, unsaid.by_passing, unsaid.plug_friction], [null, true, true]);
  const { settings, problems } = readSettings(
    rows({ layer_contrast: '0.8', by_passing: 'off', plug_friction: 'off' }),
  );
  assert.deepEqual(
    [settings.layer_contrast, settings.by_passing, settings.plug_friction],
    [0.8, false, false],
  );
  assert.deepEqual(problems, []);
  const { settings: wrong, problems: said } = readSettings(
    rows({ layer_contrast: '0', by_passing: 'sometimes' }),
  );
  assert.deepEqual([wrong.layer_contrast, wrong.by_passing], [null, true]);
  assert.deepEqual(
    said.map((p) => p.label),
    ['layer_contrast', 'by_passing'],
  );
});

test('the model of the rate: as said; what cannot be is complained of, and the usual is used', () => {
  const model = (given: Record<string, string>) => {
    const { settings, problems } = readSettings(rows(given));
    const { kind, changes, jump_sd_m } = settings.curve.rate_model;
    return { kind, changes, jump_sd_m, problems: problems.map((p) => `${p.label}: ${p.expected}`) };
  };
  assert.deepEqual(model({}), { kind: 'smooth', changes: 0, jump_sd_m: 0, problems: [] });
  assert.deepEqual(model({ rate_model: 'stepwise' }), {
    kind: 'stepwise',
    changes: 1,
    jump_sd_m: 0,
    problems: [],
  });
  assert.deepEqual(model({ rate_model: 'smooth', rate_changes: '2', rate_jump_m: '1.5' }), {
    kind: 'smooth',
    changes: 2,
    jump_sd_m: 1.5,
    problems: [],
  });
  assert.deepEqual(model({ rate_model: 'wavy' }), {
    kind: 'smooth',
    changes: 0,
    jump_sd_m: 0,
    problems: ['rate_model: smooth, stepwise, constant'],
  });
  assert.deepEqual(model({ rate_model: 'stepwise', rate_changes: '5' }).changes, 1);
  assert.deepEqual(model({ rate_model: 'constant', rate_changes: '1' }).problems.length, 1);
  // A jump needs a change to be at.
  assert.deepEqual(model({ rate_jump_m: '2' }), {
    kind: 'smooth',
    changes: 0,
    jump_sd_m: 0,
    problems: ['rate_jump_m: 0, or a rate with 1 change or more: without changes nothing jumps'],
  });
});

test('what dates cost and how they go: as said, else one in twenty fails and each counts one', () => {
  const plan = (given: Record<string, string>) => {
    const { settings, problems } = readSettings(rows(given));
    return { ...datePlanOf(settings.listed), problems: problems.map((p) => p.label) };
  };
  const usual = { fails: 0.05, date_price: 1, core_price: 0, budget: null };
  assert.deepEqual(plan({}), { plan: usual, isAssumed: true, problems: [] });
  const given = { date_fails_percent: '10', date_price: '450', core_price: '3000', date_budget: '2000' };
  assert.deepEqual(plan(given), {
    plan: { fails: 0.1, date_price: 450, core_price: 3000, budget: 2000 },
    isAssumed: false,
    problems: [],
  });
  const wrong = { date_fails_percent: '100', date_price: '0', core_price: '-1', date_budget: '2000 €' };
  assert.deepEqual(plan(wrong), { plan: usual, isAssumed: true, problems: Object.keys(wrong) });
});

test('every setting has a name in words, its own', () => {
  const names = Object.keys(SETTINGS).map(settingName);
  for (const name of names) assert.match(name, /^[^_`]+$/);
  assert.equal(new Set(names).size, names.length);
});
