import assert from 'node:assert/strict';
import { globSync, readFileSync } from 'node:fs';
import { test } from 'node:test';
import { demandFailure, type KnownFailure, rowOf } from './known-to-fail.ts';

const failure: KnownFailure = {
  what: 'coverage of a clay, 100 holes, seed 7',
  bound: { at_least: 0.9 },
  measured: 0.8571,
  stated: '0.857',
  since: '2026-11-28',
  page: 'docs/methods/clay.md',
};
const pages = (path: string): string =>
  path === 'docs/bounds.md' ? `${rowOf(failure)}\n` : 'Coverage 0.857: known to fail.';

test('a failure as stated passes', () => {
  demandFailure(failure, pages);
  assert.equal(
    rowOf(failure),
    '| coverage of a clay, 100 holes, seed 7 | at least 0.9 | 0.857 | 2026-11-28 | methods/clay.md |',
  );
});

test('a bound that is met turns red and asks to be restored', () => {
  assert.throws(
    () => demandFailure({ ...failure, measured: 0.9 }, pages),
    /^AssertionError.*cured: restore the bound/,
  );
  const most = { ...failure, bound: { at_most: 0.05 }, stated: '0.061' };
  assert.throws(() => demandFailure({ ...most, measured: 0.05 }, pages), /cured: restore the bound/);
});

test('another figure than the one stated turns red, better or worse', () => {
  for (const measured of [0.8, 0.861])
    assert.throws(() => demandFailure({ ...failure, measured }, pages), /fails otherwise than stated/);
  assert.throws(
    () => demandFailure({ ...failure, measured: Number.NaN }, pages),
    /fails otherwise than stated/,
  );
});

test('a page that is silent, or says another figure, turns red', () => {
  const silent = (path: string): string => (path === 'docs/bounds.md' ? '' : pages(path));
  assert.throws(() => demandFailure(failure, silent), /docs\/bounds\.md lacks the row/);
  const proud = (path: string): string => (path === 'docs/bounds.md' ? pages(path) : 'Coverage 0.857.');
  assert.throws(() => demandFailure(failure, proud), /clay\.md does not say/);
});

test('every row of known failures in docs/bounds.md is that of a check', () => {
  const root = new URL('../../', import.meta.url);
  const page = readFileSync(new URL('docs/bounds.md', root), 'utf8');
  const section = page.split('\n## Known failures today\n')[1]?.split('\n## ')[0] ?? '';
  const rows = section.split('\n').filter((line) => line.startsWith('| ') && !line.startsWith('| check |'));
  const sources = globSync('{checks,science,bench}/**/*.test.ts', {
    cwd: root,
    exclude: (path) => path.includes('node_modules'),
  })
    .map((path) => readFileSync(new URL(path, root), 'utf8'))
    .filter((source) => source.includes('knownToFail('));
  for (const row of rows) {
    const [, , , stated] = row.split('|').map((cell) => cell.trim());
    assert(
      sources.some((source) => source.includes(`'${stated}'`)),
      `no check states ${stated}: ${row}`,
    );
  }
});
