/** Whatever the disk refuses to be read, each command says it in one sentence and ends with 2. */
import assert from 'node:assert/strict';
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { onFaultyDisk } from './disk/faulty-disk.ts';
import { target, writeWhole } from './disk/write.ts';
import { said } from './fixtures/said.ts';
import { SMALL_CAMPAIGN } from './fixtures/small-campaign.ts';

const top = mkdtempSync(join(tmpdir(), 'stillstand-faults-'));
after(() => rmSync(top, { recursive: true, force: true }));

const campaign = join(top, 'campaign');
await writeWhole(await target(campaign, { replace: 'nothing' }), SMALL_CAMPAIGN, {
  checksums: false,
  keep: false,
});
const table = (name: string, text: string): string => {
  writeFileSync(join(top, name), text);
  return join(top, name);
};
const dates = table('dates.csv', 'id,age,error,curve\nA,4520,30,shcal20\n');
const depths = table('depths.csv', 'lab_code,depth_m,c14_age,c14_error,curve\nA,1,4520,30,shcal20\n');
const points = table(
  'points.csv',
  'id,kind,elevation_m,reference_water_level_m,indicative_range_m\nP1,index,-3,1,1\n',
);
const curve = table(
  'curve.csv',
  'id,kind,rsl_m,rsl_sigma_m,age_cal_bp,age_sigma_yr\nP1,index,-3,0.2,5000,60\n',
);

const doses = table('doses.csv', 'id,dose_gy,dose_gy_sd,rate_gy_ka,rate_gy_ka_sd\nL1,75,4,2.83,0.14\n');
const ratios = table(
  'ratios.csv',
  'id,th230_u238,th230_u238_sd,u234_u238,u234_u238_sd\nU1,0.1226,0.0006,1.2149,0.001\n',
);

const QUICK = ['--draws', '50', '--chains', '1'];
const READING: Record<string, string[]> = {
  check: ['check', campaign],
  calibrate: ['calibrate', dates],
  dose: ['dose', doses],
  uranium: ['uranium', ratios],
  // One date is too few to model, and its files are read all the same.
  ages: ['ages', depths],
  points: ['points', points],
  trace: ['trace', campaign],
  cable: ['cable', campaign, 'H1'],
  water: ['water', campaign, 'H1'],
  pull: ['pull', campaign, 'H1'],
  pipe: ['pipe', campaign],
  replay: ['replay', campaign, 'H1'],
};

for (const [name, words] of Object.entries(READING)) {
  test(`${name}: every call of the file system refused is a sentence and exit code 2`, async (t) => {
    await said(...words);
    const { calls } = await onFaultyDisk(
      () => 'goes',
      async () => await said(...words),
    );
    assert.ok(calls.length > 0);
    let refused = 0;
    for (const code of ['EACCES', 'EMFILE', 'EIO', 'ELOOP', 'ENOTDIR', 'EISDIR', 'ENOENT']) {
      for (const { n, name: call, path } of calls) {
        const { ended } = await onFaultyDisk(
          (c) => (c.n === n ? (code as 'EIO') : 'goes'),
          async () => await said(...words),
        );
        assert.ok('value' in ended, `${code} at ${call} ${path}: ${'error' in ended ? ended.error : ''}`);
        // A table that is gone between two calls is a table that is not there.
        if (code === 'ENOENT' && call === 'lstat') continue;
        assert.equal(ended.value.code, 2, `${code} at ${call} ${path}: ${ended.value.err}`);
        assert.match(
          ended.value.err,
          new RegExp(`^error: /[^\n]+ cannot be read: [^\n]+ \\(${code}\\)\\. [A-Z][^\n]+\\.$`),
        );
        refused++;
      }
    }
    t.diagnostic(`${refused} refusals`);
  });
}

test('curve: a table that cannot be read is a sentence', async () => {
  for (const path of [join(top, 'none.csv'), top, join(curve, 'x')]) {
    const { code, err } = await said('curve', path, ...QUICK);
    assert.equal(code, 2);
    assert.match(err, /^error: \S+ cannot be read: .+\.$/);
  }
});

test('paths that are no campaign, of every kind: a sentence and exit code 2', async () => {
  const locked = join(top, 'locked');
  mkdirSync(locked);
  chmodSync(locked, 0o000);
  for (const path of [
    join(top, 'nowhere'),
    join(dates, 'below'),
    `${top}/${'n'.repeat(300)}`,
    join(top, 'a\0b'),
  ]) {
    for (const words of [
      ['check', path],
      ['trace', path],
      ['cable', path, 'H1'],
      ['compute', path, '--out', join(top, 'x')],
    ]) {
      const { code, err } = await said(...words);
      assert.deepEqual([code, err.split('\n').length], [2, 1], `${words.join(' ')}: ${err}`);
      assert.match(err, /^error: .+ cannot be read: .+\. .+\.$/);
    }
  }
  // Root may enter it all the same.
  if (process.getuid?.() !== 0)
    assert.match((await said('check', locked)).err, /this user has no permission \(EACCES\)/);
  chmodSync(locked, 0o755);
});
