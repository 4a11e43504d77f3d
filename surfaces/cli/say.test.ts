/** Text of a campaign is data: on a terminal it moves, colours and forges nothing. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { newDocument, withRows, writeFiles } from '@stillstand/campaign/document';
import { problem } from '@stillstand/campaign/problems';
import { target, writeWhole } from './disk/write.ts';
import { said, saidBy } from './fixtures/said.ts';
import { print, sayJson, sayProblems, sayTable } from './say.ts';

const top = mkdtempSync(join(tmpdir(), 'stillstand-say-'));
after(() => rmSync(top, { recursive: true, force: true }));

/** Everything a terminal could obey, with a forged line in it. */
const HOSTILE = 'H\x1b[2J\x1b]0;title\x07\x9b31m\r\nerror: all is lost\u202e\u2066\u2028\u200f\x7f\x00\tend';
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const OBEYED = /[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/;

test('lines, tables and problems: nothing that a terminal obeys, and one line for each', async () => {
  const { out, err } = await saidBy(async () => {
    print('plain − “x” ±', HOSTILE);
    sayTable([
      ['a', HOSTILE],
      [HOSTILE, 'b'],
    ]);
    return sayProblems([
      problem({
        severity: 'warning',
        code: 'x',
        table: HOSTILE,
        found: HOSTILE,
        expected: HOSTILE,
        fix: HOSTILE,
      }),
    ]);
  });
  assert.doesNotMatch(out + err, OBEYED);
  assert.equal(out.split('\n').length, 4);
  assert.equal(err.split('\n').length, 1);
  assert.match(out, /^plain − “x” ±\nH\\u001b\[2J/);
  assert.match(err, /^warning: H\\u001b.*\\r\\nerror: all is lost\\u202e.*\\tend/);
});

test('JSON is exact, and holds nothing a terminal obeys', async () => {
  const value = { [HOSTILE]: [HOSTILE, 1.5, null, 'ä−“”'] };
  const { out } = await saidBy(async () => {
    sayJson(value);
    return 0;
  });
  assert.deepEqual(JSON.parse(out), value);
  assert.doesNotMatch(out, OBEYED);
  assert.match(out, /ä−“”/);
});

test('every command that prints a campaign’s words', async () => {
  let document = newDocument(HOSTILE);
  const rows = { hole: HOSTILE, by: HOSTILE, note: HOSTILE };
  const tables = {
    holes: [{ ...rows, method: 'string', end_reason: HOSTILE }],
    joints: [
      { ...rows, seq: '1', action: 'add', item: 'joint', joint: HOSTILE, length: '3 m', tight: 'yes' },
    ],
    soundings: [
      { ...rows, seq: '2', to_sediment: HOSTILE, purpose: HOSTILE },
      { ...rows, seq: '3', to_sediment: '1 m', purpose: 'after_drive' },
    ],
    samples: [{ sample: HOSTILE, hole: HOSTILE, depth_basis: 'depth', top: '1 m', bottom: '1.1 m' }],
  };
  for (const [table, its] of Object.entries(tables)) document = withRows(document, table, its);
  const folder = join(top, 'campaign');
  await writeWhole(await target(folder, { replace: 'nothing' }), writeFiles(document), {
    checksums: false,
    keep: false,
  });
  const table = join(top, 'table.csv');
  writeFileSync(
    table,
    `id,age,error,curve,kind,rsl_m,rsl_sigma_m,elevation_m,reference_water_level_m,dose_gy,dose_gy_sd,th230_u238,th230_u238_sd,u234_u238,u234_u238_sd\n"${HOSTILE}",x,y,z,v,u,t,s,r,q,p,o,n,m,l\n`,
  );
  const commands = [
    ['check', folder],
    ['compute', folder, '--out', join(top, 'out'), '--figures', 'svg'],
    ['trace', folder],
    ['trace', folder, `hole:${HOSTILE}/depth`],
    ['trace', folder, HOSTILE],
    ...['cable', 'water', 'pull', 'replay'].map((name) => [name, folder, HOSTILE]),
    ['calibrate', table],
    ['dose', table],
    ['uranium', table],
    ['ages', table],
    ['points', table],
    ['curve', table],
    ['check', HOSTILE],
    [HOSTILE],
    ['calibrate', '--age', HOSTILE],
    ['check', `--${HOSTILE}`],
  ];
  let shown = 0;
  for (const words of commands) {
    const { out, err } = await said(...words);
    assert.doesNotMatch(out + err, OBEYED, words[0]);
    assert.doesNotMatch(`${out}\n${err}`, /^error: all is lost/m, words[0]);
    if (/\\u001b/.test(out + err)) shown++;
  }
  assert.ok(shown >= 12, `${shown} commands showed the words`);
});
