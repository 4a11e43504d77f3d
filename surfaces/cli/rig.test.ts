/** The rig's commands as they are used, on the invented campaign and on plain options. */
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { newDocument, withRows, writeFiles } from '@stillstand/campaign/document';
import { parseLength } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import { target, writeWhole } from './disk/write.ts';
import { said } from './fixtures/said.ts';

const DEMO = fileURLToPath(new URL('../../demo/campaign/', import.meta.url));

const PLAIN = { checksums: false, keep: false };

test('cable: tape in feet from plain options; the stop mark is never rounded past the margin', async () => {
  const { code, out } = await said('cable', '--sediment', '20ft', '--shoe', '30ft', '--unit', 'ft');
  assert.equal(code, 0);
  // 30 ft less 0.30 m is 29 ft 0.19 in
  assert.match(out, /^STOP +29 ft 0 in /m);
  assert.match(out, /^Caution\. Check the tape/m);
});

test('cable: marks that were read; inside the margin is danger and exit code 1, and still told', async () => {
  const words = ['cable', '--sediment', '6', '--shoe', '9', '--start', '6', '--strokes', '30', '--json'];
  const fine = await said(...words, '--end', '7');
  assert.equal(fine.code, 0);
  const { observed } = JSON.parse(fine.out);
  assert.deepEqual([observed.advance_m, observed.strokes_per_m, observed.verdict], [1, 30, 'clear']);
  const past = await said(...words, '--end', '9.1');
  assert.equal(past.code, 1);
  assert.equal(JSON.parse(past.out).observed.verdict, 'past shoe');
  assert.match(past.err, /^danger: .*past the shoe/);
  assert.equal((await said('cable', '--sediment', '6')).code, 2);
});

test('cable: what is near the stop mark is called so, and every limit printed is on its safe side: seed 7', async () => {
  const words = ['cable', '--sediment', '6', '--shoe', '9', '--start', '6', '--json'];
  assert.equal(JSON.parse((await said(...words, '--end', '8.5')).out).observed.verdict, 'near stop');
  const stream = randomStream(7);
  const metres = (typed: string): number => {
    const read = parseLength(typed.replace('−', '-'));
    assert.ok(read.ok, typed);
    return read.metres;
  };
  for (let i = 0; i < 60; i++) {
    const unit = i % 2 === 0 ? 'm' : 'ft';
    const shoe = 4 + 20 * stream.uniform();
    const sediment = shoe - 0.4 - 2 * stream.uniform();
    const end = sediment + (shoe - sediment) * stream.uniform();
    const given = ['--sediment', `${sediment} m`, '--shoe', `${shoe} m`, '--end', `${end} m`, '--unit', unit];
    const json = JSON.parse((await said('cable', ...given, '--json')).out);
    const { out } = await said('cable', ...given);
    const line = (name: string) => out.split('\n').find((l) => l.startsWith(name))!;
    const cells = line('STOP').split(/ {2,}/);
    const stop = json.tape.marks.at(-1);
    assert.ok(metres(cells[1]!) <= stop.reads_m + 1e-9, out);
    assert.ok(metres(cells[3]!) <= stop.clearance_m + 1e-9, out);
    assert.ok(metres(/At most (.*?) in this run/.exec(out)![1]!) <= json.tape.most_m + 1e-9, out);
    assert.ok(metres(/Margin (.*?);/.exec(out)![1]!) >= json.tape.margin_m - 1e-9, out);
    assert.ok(
      metres(/clearance (\S.*?) ± .*?: /.exec(line('Tip'))![1]!) <= json.observed.clearance_m + 1e-9,
      out,
    );
    assert.ok(metres(/Tip (.*?) below/.exec(line('Tip'))![1]!) >= json.observed.tip_m - 1e-9, out);
  }
});

test('water and pull: what holds is never shown larger, what loads never smaller: seed 11', async () => {
  const stream = randomStream(11);
  const number = (text: string): number => Number(/−?[\d.]+/.exec(text)![0].replace('−', '-'));
  for (let i = 0; i < 30; i++) {
    const [inside, outside] = [3 * stream.uniform(), 3 * stream.uniform()];
    const shoe = 6 + 6 * stream.uniform();
    const given = ['--pipe', '3', '--shoe', `${shoe} m`, '--unit', 'm'];
    const levels = ['--sediment', `${shoe - 2} m`, '--inside', `${inside} m`, '--outside', `${outside} m`];
    const sampler = ['--sampler-outside-mm', '50', '--sampler-length', '1.6 m'];
    const water = JSON.parse((await said('water', ...given, ...levels, ...sampler, '--json')).out);
    const told = (await said('water', ...given, ...levels, ...sampler)).out.split('\n');
    const of = (name: string): number => number(told.find((l) => l.startsWith(name))!.slice(name.length));
    assert.ok(of('to add') >= water.to_fill_l - 1e-9);
    assert.ok(of('head, inside above outside') <= water.head_m + 1e-9);
    assert.ok(of('pressure head, with densities') <= water.pressure_head_m + 1e-9);
    assert.ok(of('fastest lift the head after the run allows') <= water.suction.fastest_m_s + 1e-9);
    const pull = JSON.parse((await said('pull', ...given, '--penetration', `${shoe - 1} m`, '--json')).out);
    const pulled = (await said('pull', ...given, '--penetration', `${shoe - 1} m`)).out.split('\n');
    const [low, high] = pulled
      .find((l) => l.startsWith('on the hook'))!
      .match(/[\d.]+/g)!
      .map(Number);
    assert.ok(
      low! >= pull.estimate.still.hook_kn.low - 1e-9 && high! >= pull.estimate.still.hook_kn.high - 1e-9,
    );
  }
});

test('a safety question answered no is said by check and replay, with the hazard and what to do; cable names what was not confirmed', async (t) => {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-no-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const no = { hole: 'A', date: '2024-03-05', item: 'Mast clear of overhead lines', answer: 'no', by: 'DK' };
  const build = async (checks: Record<string, string>[], state = 'open'): Promise<void> => {
    let document = newDocument('no');
    for (const [table, rows] of Object.entries({
      holes: [
        { hole: 'A', method: 'string', state },
        { hole: 'B', method: 'string', state: 'planned' },
      ],
      joints: [
        { hole: 'A', seq: '2', action: 'add', item: 'joint', joint: 'J1', length: '6 m', tight: 'yes' },
      ],
      drives: [{ hole: 'A', seq: '3', stick_up_start: '6 m', stick_up_end: '1 m' }],
      soundings: [{ hole: 'A', seq: '4', to_sediment: '3 m' }],
      checks,
    }))
      document = withRows(document, table, rows);
    await writeWhole(await target(folder, { replace: 'anything' }), writeFiles(document), PLAIN);
  };
  await build([{ ...no, seq: '1' }]);
  const checked = await said('check', folder);
  assert.equal(checked.code, 1);
  assert.match(
    checked.out,
    /^danger: checks, line 2, A, answer: found “no, by DK, 2024-03-05, to Mast clear of overhead lines”; .*Overhead line within reach of the mast\. Lower the mast/m,
  );
  const replayed = await said('replay', folder, 'A');
  assert.equal(replayed.code, 1);
  assert.match(replayed.err, /^danger: checks, .*Overhead line/m);
  assert.doesNotMatch((await said('replay', folder, 'B')).err, /Overhead line/);
  const cable = await said('cable', folder, 'A');
  assert.match(
    cable.err,
    /found “Cable marks not confirmed; Zero of the cable not checked; Water outside not read”/,
  );
  await build([
    { ...no, seq: '1' },
    { ...no, answer: 'yes', by: 'JL', seq: '5' },
  ]);
  assert.doesNotMatch((await said('check', folder)).out, /Overhead line/);
  await build([{ ...no, seq: '1' }], 'finished');
  assert.match((await said('check', folder)).out, /^note: checks/m);
});

test('cable at a reading: marks count as they stood then, whatever changed since', async (t) => {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-marks-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const hole = 'A';
  let document = newDocument('marks');
  for (const [table, rows] of Object.entries({
    holes: [{ hole, method: 'string', state: 'open' }],
    string_items: [
      { hole, seq: '2', action: 'add', item: 'joint', joint: 'J1', length: '6 m', tight: 'yes' },
      { hole, seq: '8', action: 'add', item: 'joint', joint: 'J2', length: '3 m', tight: 'yes' },
    ],
    drives: [{ hole, seq: '3', stick_up_start: '6 m', stick_up_end: '1 m' }],
    soundings: [
      { hole, seq: '4', to_sediment: '3 m', to_water_inside: '0.2 m', water_outside: '1 m' },
      { hole, seq: '6', purpose: 'zero_check', cable_at_collar: '0 m' },
    ],
    cable_marks: [{ hole, seq: '5', sediment: '3 m', interval: '0.5 m', stop: '5.5 m' }],
  }))
    document = withRows(document, table as 'holes', rows);
  await writeWhole(await target(folder, { replace: 'anything' }), writeFiles(document), PLAIN);
  const then = await said('cable', folder, hole, '--at', '6');
  assert.doesNotMatch(then.err, /not confirmed|not checked|not read/);
  const now = await said('cable', folder, hole);
  assert.match(now.err, /Cable marks not confirmed: the string has changed since/);
});

test('cable of a hole at a reading; a string that is out is said to be out', async () => {
  const { code, out } = await said('cable', DEMO, 'T2', '--at', '38', '--json');
  assert.equal(code, 0);
  const { tape, unit } = JSON.parse(out);
  assert.equal(unit, 'm');
  const [zero, sediment] = tape.marks;
  assert.deepEqual([zero.is, zero.tip_m, sediment.is], ['zero', 0, 'sediment']);
  assert.equal(tape.capacity_assumed, false);
  const pulled = await said('cable', DEMO, 'T2');
  assert.equal(pulled.code, 1);
  assert.match(pulled.err, /a string in the hole/);
  assert.match((await said('cable', DEMO, 'nowhere')).err, /No hole “nowhere”\. There are: T1/);
});

test('water: fresh water level with the sea 12 m down is turned, and says by how much', async () => {
  const words = ['water', '--pipe', '3', '--shoe', '12m', '--sediment', '10m', '--outside', '1m', '--json'];
  const turned = await said(...words, '--inside', '1m', '--water-inside', 'fresh');
  assert.equal(turned.code, 1);
  const answer = JSON.parse(turned.out);
  assert.equal(answer.head_m, 0);
  assert.ok(Math.abs(answer.pressure_head_m - (9 / 1.025 - 9)) < 1e-9);
  assert.equal(answer.exit.verdict, 'boils');
  assert.equal(answer.cautions.length, 1);
  assert.equal((await said(...words, '--inside', '0.1m')).code, 0);
  assert.equal((await said('water', '--pipe', '17')).code, 2);
});

test('pull: always beside its caution; a rating that could be exceeded is exit code 1', async () => {
  const words = ['pull', '--pipe', '3', '--shoe', '12m', '--penetration', '10m', '--parts', '4'];
  const plain = await said(...words);
  assert.equal(plain.code, 0);
  assert.match(plain.out, /^Caution\. Estimate only/m);
  assert.match(JSON.parse((await said(...words, '--json')).out).estimate.caution, /competent person/);
  assert.equal((await said(...words, '--rope', '5')).code, 1);
  assert.equal((await said(...words, '--rope', '500')).code, 0);
  // loads with tonnes next to them, the weakest part by name, and those that no mark was read of
  const marked = await said(...words, '--rope', '50t', '--shackle', '40t');
  assert.equal(marked.code, 0);
  assert.match(marked.out, /on the hook\s+[\d.]+–\d+ kN \((?:\d+ kg|[\d.]+)(?: t)?–[\d.]+ t\)/);
  assert.match(marked.out, /shackle, rated 392\.2 kN \(40\.00 t\)/);
  assert.match(marked.out, /^Weakest part: shackle, rated/m);
  assert.match(marked.out, /^Not read: winch, sheave block, hook, mast or tripod, anchor\.$/m);
  assert.match((await said(...words, '--rope', '50T')).out, /^Unclear: rope: .*short.*competent person/m);
  assert.equal((await said(...words, '--rope', 'MBL 50t')).code, 2);
  assert.equal((await said('pull', '--pipe', '3', '--shoe', '5m', '--penetration', '10m')).code, 2);
  assert.match((await said(...words, '--overhead', '11')).out, /3\.05 m away/);
});

test('pull and water of a hole: what the campaign’s settings say of gear and plug stands until an option says otherwise', async (t) => {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-gear-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const settings = { line_parts: '4', rated_line_kn: '0.5', plug_kind: 'sand', water_outside: 'fresh' };
  let document = newDocument('gear');
  for (const [table, rows] of Object.entries({
    pipes: [{ pipe: '3', outside_diameter_mm: '88.9', wall_mm: '5.49' }],
    holes: [{ hole: 'A', method: 'string', pipe: '3' }],
    joints: [{ hole: 'A', seq: '1', action: 'add', item: 'joint', joint: 'J1', length: '6 m', tight: 'yes' }],
    drives: [{ hole: 'A', seq: '2', stick_up_start: '6 m', stick_up_end: '1 m' }],
    soundings: [{ hole: 'A', seq: '3', to_sediment: '3 m', to_water_inside: '2.5 m', water_outside: '1 m' }],
    settings: Object.entries(settings).map(([name, value]) => ({ name, value })),
  }))
    document = withRows(document, table, rows);
  await writeWhole(await target(folder, { replace: 'nothing' }), writeFiles(document), PLAIN);
  const pulled = await said('pull', folder, 'A', '--json');
  assert.equal(pulled.code, 1);
  const [against] = JSON.parse(pulled.out).estimate.still.against;
  assert.deepEqual([against.part, against.rated_kn], ['line', 0.5]);
  assert.equal((await said('pull', folder, 'A', '--rope', '500', '--json')).code, 0);
  const heavy = withRows(document, 'settings', [{ name: 'hanging_kg', value: '15000' }]);
  await writeWhole(await target(`${folder}/heavy`, { replace: 'nothing' }), writeFiles(heavy), PLAIN);
  const unusable = await said('pull', `${folder}/heavy`, 'A');
  assert.equal(unusable.code, 1);
  assert.equal(
    unusable.out.trim(),
    'Suspended gear 15000 kg is out of range 0 to 10000: no load is computed.',
  );
  assert.match((await said('pull', `${folder}/heavy`, 'A', '--extra', '150')).out, /on the hook/);
  // inside 2.5, outside 1 + 1 below the collar, both fresh: 0.5 m short over 3 m of sand
  const { exit } = JSON.parse((await said('water', folder, 'A', '--water-inside', 'fresh', '--json')).out);
  assert.equal(exit.critical, 1);
  assert.ok(Math.abs(exit.pressure_head_m + 0.5) < 1e-9, `${exit.pressure_head_m}`);
});

test('water of a hole: a level that a run has moved is not counted with, and is asked for with its time', async () => {
  const before = await said('water', DEMO, 'T3', '--at', '60');
  assert.match(before.out, /water inside last read +2023-02-1\dT/);
  const after = await said('water', DEMO, 'T3', '--at', '66');
  assert.equal(after.code, 1);
  assert.match(after.out, /head, inside above outside +not known/);
  assert.match(after.err, /a run has moved it since it was read \(2023-02-1\dT/);
});

test('day: the sheet of a date is written once, never over a file', async (t) => {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-day-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const out = join(folder, 'day.html');
  const first = await said('day', DEMO, '2023-02-07', '--out', out);
  assert.deepEqual([first.code, first.out.replace(out, 'OUT')], [0, '2023-02-07: holes T1. Day sheet: OUT']);
  // shoe 15.2 cm, joints 9 ft 11 1/2 in, 2.995 m, 4 ft 11 3/4 in and 9 ft 11 1/2 in, less 4 threads of 1 1/4 in, is
  // 10.6083; less stick-up 4 ft 3 1/2 in and ground 9 1/2 in: 9.0589 new, and the rest of 9.0932 was driven again
  assert.match(await readFile(out, 'utf8'), /<b>9\.06 m<\/b>driven/);
  const again = await said('day', DEMO, '2023-02-07', '--out', out);
  assert.deepEqual([again.code, /something of that name exists/.test(again.err)], [2, true]);
  const facts = JSON.parse((await said('day', DEMO, '2023-02-07', '--json')).out);
  // seven runs: 0.98 + 1.04 + 1.03 + 0.96 + 1.03 + 0.59 + 0.88
  assert.ok(Math.abs(facts.recovered_m - 6.51) < 1e-9);
  assert.equal((await said('day', DEMO, '7.2.2023', '--json')).code, 2);
  assert.equal((await said('day', DEMO, '2023-02-07')).code, 2);
});

test('risks: the sheet of a date is written once; a site or a date that is not one is said', async (t) => {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-risks-'));
  t.after(() => rm(folder, { recursive: true, force: true }));
  const out = join(folder, 'risks.html');
  const first = await said('risks', DEMO, '2023-02-07', '--site', 'TS', '--out', out);
  assert.deepEqual(
    [first.code, first.out.replace(out, 'OUT')],
    [0, '2023-02-07: 0 risks. Risk assessment: OUT'],
  );
  assert.match(await readFile(out, 'utf8'), /<b>Site<\/b> TS<\/p>/);
  assert.equal((await said('risks', DEMO, '2023-02-07', '--out', out)).code, 2);
  assert.match((await said('risks', DEMO, '2023-02-07', '--site', 'X', '--json')).err, /No site “X”/);
  assert.equal((await said('risks', DEMO, '7.2.2023', '--json')).code, 2);
  assert.match((await said('day', DEMO, '2023-02-29', '--json')).err, /Found “2023-02-29”, expected a date/);
});

test('replay: every reading of a hole once, in order of seq, with what was lost and the hole beside it', async () => {
  const { code, out } = await said('replay', DEMO, 'T1', '--json');
  assert.equal(code, 0, 'the loss is admitted by the hole’s state');
  const story = JSON.parse(out);
  const seqs = story.steps.map((s: { seq: number }) => s.seq);
  assert.deepEqual(
    seqs,
    [...seqs].sort((a, b) => a - b),
  );
  assert.deepEqual(story.link.after, [{ hole: 'T2', distance_to_replaced_m: 2.4 }]);
  assert.ok(story.account.in_ground_m > 0 && story.account.says.length >= 3);
  assert.ok(Math.abs(story.account.added_m - story.account.back_m - story.account.in_ground_m) < 1e-9);
  const text = await said('replay', DEMO, 'T1');
  assert.match(text.out, /note: lost: .*The hole is marked lost/);
  assert.match(text.out, /no deeper than/);
});

test('replay: an amended reading is told with what stood there first, a withdrawn one in its place', async () => {
  const row = (row_id: string, seq: string, to_sediment: string, more: Record<string, string> = {}) => ({
    row_id,
    seq,
    hole: 'H1',
    to_sediment,
    amends: '',
    amend_kind: '',
    ...more,
  });
  let document = withRows(newDocument('x'), 'holes', [{ hole: 'H1', method: 'string' }]);
  document = withRows(document, 'string_items', [
    { row_id: 'j', seq: '1', hole: 'H1', action: 'add', item: 'joint', joint: 'J1', length: '6 m' },
  ]);
  document = withRows(document, 'soundings', [
    row('a', '3', '2 m'),
    row('b', '4', '2.5 m'),
    row('c', '3', '3 m', { amends: 'a', amend_kind: 'replace' }),
    row('d', '5', '', { amends: 'b', amend_kind: 'withdraw' }),
    row('e', '3', '3.1 m', { amends: 'c', amend_kind: 'replace' }),
    row('f', '6', '3.2 m'),
    row('g', '2.5', '', { amends: 'f', amend_kind: 'move' }),
  ]);
  const parent = await mkdtemp(join(tmpdir(), 'stillstand-'));
  try {
    await writeWhole(await target(join(parent, 'x'), { replace: 'nothing' }), writeFiles(document), PLAIN);
    const { out } = await said('replay', join(parent, 'x'), 'H1');
    assert.match(out, /sounded, sediment at 3\.10 m/);
    assert.match(out, /amended: to_sediment “2 m” → “3 m” \(line 2, by line 4\)/);
    assert.match(out, /amended: to_sediment “3 m” → “3\.1 m” \(line 4, by line 6\)/);
    assert.match(
      out,
      /2\.5 {2}sounded, sediment at 3\.20 m\n +.*\n? *amended: seq “6” → “2\.5” \(line 7, by line 8\)/,
    );
    assert.match(out, /4 {2}withdrawn from soundings: to_sediment 2\.5 m \(line 3, by line 5\)/);
  } finally {
    await rm(parent, { recursive: true });
  }
});

test('replay: amendments that differ are shown in the place of the reading, with what each says', async () => {
  let document = withRows(newDocument('x'), 'holes', [{ hole: 'H1', method: 'string' }]);
  const joint = { hole: 'H1', action: 'add', item: 'joint', amends: '', amend_kind: '' };
  document = withRows(document, 'string_items', [
    { ...joint, row_id: 'a', seq: '1', joint: 'J1', length: '6 m' },
    { ...joint, row_id: 'b', seq: '2', joint: 'J2', length: '3 m' },
    { ...joint, row_id: 'c', seq: '2', joint: 'J2', length: '2.90 m', amends: 'b', amend_kind: 'replace' },
    { ...joint, row_id: 'd', seq: '2', joint: 'J2', length: '3.10 m', amends: 'b', amend_kind: 'replace' },
    { ...joint, row_id: 'e', seq: '2', joint: 'J2', length: '', amends: 'b', amend_kind: 'withdraw' },
  ]);
  const parent = await mkdtemp(join(tmpdir(), 'stillstand-'));
  try {
    await writeWhole(await target(join(parent, 'x'), { replace: 'nothing' }), writeFiles(document), PLAIN);
    const { code, out, err } = await said('replay', join(parent, 'x'), 'H1');
    assert.match(
      out,
      /2 {2}not used, string_items line 3: its amendments differ, length “2\.90 m” \(line 4\) or length “3\.10 m” \(line 5\) or withdrawn/,
    );
    // The string is not 6 m long: what it is nobody can say until one is chosen.
    assert.doesNotMatch(out, /string .*6\.00/);
    assert.match(err, /amendments that differ/);
    assert.equal(code, 1);
    const { disputed } = JSON.parse((await said('replay', join(parent, 'x'), 'H1', '--json')).out);
    assert.deepEqual(disputed[0].between, [
      { line: 4, cells: { length: '2.90 m' } },
      { line: 5, cells: { length: '3.10 m' } },
      { line: null, cells: {} },
    ]);
  } finally {
    await rm(parent, { recursive: true });
  }
});

test('each says how it is used', async () => {
  for (const command of ['cable', 'water', 'pull', 'replay']) {
    const { code, out } = await said(command, '--help');
    assert.equal(code, 0);
    assert.match(out, new RegExp(`stillstand ${command} FOLDER HOLE`));
  }
});

test('the README shows the end of check as it is', async () => {
  const readme = await readFile(new URL('../../README.md', import.meta.url), 'utf8');
  const shown = /`check` of the demo ends with\n\n```text\n([^`]+)\n```/.exec(readme)?.[1];
  assert.ok(shown !== undefined);
  const { out } = await said('check', DEMO);
  assert.ok(out.endsWith(shown), out.slice(-shown.length));
});

test('pipe: where each item is, a day of it, and what is not accounted for; wrong words end with 2', async () => {
  const parent = await mkdtemp(join(tmpdir(), 'stillstand-pipe-'));
  try {
    let document = newDocument('pipe');
    const tables = {
      holes: [{ hole: 'H1', method: 'string', state: 'finished' }],
      pipe_stock: [
        { stock_item: 'A1', item: 'joint', length: '3.00 m' },
        { stock_item: 'A2', item: 'joint', length: '10 ft', condition: 'damaged' },
      ],
      string_items: [
        { hole: 'H1', seq: '1', action: 'add', item: 'joint', joint: 'a1', length: '3.00 m' },
        { hole: 'H1', seq: '2', action: 'add', item: 'joint', joint: 'B1', length: '1.5 m' },
      ].map((row) => ({ ...row, time: '2024-03-05T08:00:00Z' })),
      samplers: [{ sampler: 'V50' }],
      gear: [{ gear: 'rope', left_in: 'H1', count: '1' }],
    };
    for (const [name, rows] of Object.entries(tables))
      document = withRows(document, name as keyof typeof tables, rows);
    await writeWhole(await target(join(parent, 'x'), { replace: 'anything' }), writeFiles(document), PLAIN);
    const { code, out } = await said('pipe', join(parent, 'x'));
    assert.equal(code, 0);
    assert.match(out, /^joint A1 +3\.00 m +not accounted for in H1$/m);
    assert.match(out, /^joint A2 +3\.05 m +damaged$/m);
    assert.match(out, /^joint, not accounted for +2 +4\.50 m$/m);
    assert.match(out, /^Sampler V50: at hand\.\nrope, 1: left in H1\.$/m);
    assert.match((await said('pipe', join(parent, 'x'), '--unit', 'ft')).out, /A2 +10 ft 0 in/);
    const day = await said('pipe', join(parent, 'x'), '--day', '2024-03-05');
    assert.equal(day.out.trim(), 'Went in: H1, joints a1, B1.\nNot accounted for: H1, joints a1, B1.');
    const other = await said('pipe', join(parent, 'x'), '--day', '2024-03-04');
    assert.match(other.out, /No pipe on 2024-03-04\. Days with pipe: 2024-03-05\./);
    assert.equal((await said('pipe', join(parent, 'x'), '--day', 'today')).code, 2);
    assert.equal(JSON.parse((await said('pipe', join(parent, 'x'), '--json')).out).items.length, 3);
  } finally {
    await rm(parent, { recursive: true });
  }
});
