// The whole gate in one command: types, lint and format, arrows, dead exports, links in docs, then the tests.
//   node scripts/gate.mjs          everything
//   node scripts/gate.mjs unit     the tests beside the code and the quick checks only
//   node scripts/gate.mjs long     the long simulations only
//   node scripts/gate.mjs browser  the app in a real browser only
import { spawnSync } from 'node:child_process';
import { globSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const which = process.argv[2] ?? 'all';

const gates = [
  ['types', ['tsc', '--noEmit', '-p', '.']],
  ['types of the app', ['tsc', '--noEmit', '-p', 'surfaces/web']],
  ['lint and format', ['biome', 'check', '--error-on-warnings', '.']],
  ['arrows', ['node', 'scripts/arrows.mjs']],
  ['dead exports', ['knip', '--no-progress']],
  ['links in docs', ['node', 'scripts/links.mjs']],
];

if (which === 'all') for (const [name, command] of gates) run(name, command);

const files = globSync(
  '{science,campaign,output,published,demo,surfaces,checks,bench,scripts}/**/*.test.{ts,tsx}',
  {
    cwd: root,
    exclude: (path) => path.includes('node_modules'),
  },
);
const isLong = (file) => /\.long\.test\.tsx?$/.test(file);
const inBrowser = (file) => file.endsWith('.browser.test.ts');
const browserTests = files.filter(inBrowser);
if (which === 'all' || which === 'browser') {
  run('a browser', ['node', 'scripts/browser.mjs']);
  driveBrowsers(browserTests);
}
if (which !== 'browser') {
  const chosen = files
    .filter((file) => !inBrowser(file))
    .filter((file) => (which === 'long' ? isLong(file) : which === 'unit' ? !isLong(file) : true))
    // The long ones first: the rest then fills the other core.
    .sort((a, b) => Number(isLong(b)) - Number(isLong(a)) || a.localeCompare(b));
  test('tests', chosen, 2);
}

function test(name, chosen, atOnce) {
  if (chosen.length === 0) fail(`${name}: none found`);
  run(name, ['node', '--import', 'tsx', '--test', `--test-concurrency=${atOnce}`, ...chosen]);
}

// One file at a time: each drives a browser of its own. A browser on a busy machine can miss a wait; a file that
// fails is run once more, both runs stand in the output, and a second failure is a failure.
function driveBrowsers(chosen) {
  if (chosen.length === 0) fail('browser tests: none found');
  console.log('— browser tests');
  for (const file of chosen) {
    const drive = () =>
      spawnSync(process.execPath, ['--import', 'tsx', '--test', file], { cwd: root, stdio: 'inherit' })
        .status === 0;
    if (drive()) continue;
    console.log(`  ${file} failed; once more`);
    if (!drive()) fail(`browser tests: ${file}`);
  }
}

function run(name, [command, ...rest]) {
  console.log(`— ${name}`);
  const started = performance.now();
  const program = command === 'node' ? process.execPath : join(root, 'node_modules', '.bin', command);
  const result = spawnSync(program, rest, { cwd: root, stdio: 'inherit' });
  if (result.status !== 0) fail(name);
  // The runner's own summary is the last word.
  if (name !== 'tests') console.log(`  fine, ${((performance.now() - started) / 1000).toFixed(1)} s`);
}

function fail(name) {
  console.error(`The gate stopped at: ${name}.`);
  process.exit(1);
}
