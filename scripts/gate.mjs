// The whole gate in one command: types, lint and format, arrows, dead exports, links and words, then the tests.
//   node scripts/gate.mjs          everything
//   node scripts/gate.mjs unit     the tests beside the code and the quick checks only
//   node scripts/gate.mjs long     the long simulations only, of which some take a part of what they can
//   node scripts/gate.mjs whole    the long simulations, those that the gate takes a part of in full (checks/bounds/part.ts)
//   node scripts/gate.mjs browser  the app in a real browser only
//   node scripts/gate.mjs browser --times 20 --loaded 10
//                                  the same twenty times, ten of them with every core kept busy: whether a test waits
//                                  for what it needs, or for a time that was always long enough
// Nothing is tried twice: a test that fails has failed.
import { spawn, spawnSync } from 'node:child_process';
import { globSync } from 'node:fs';
import { cpus } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { runTests } from './test-processes.ts';

const root = join(import.meta.dirname, '..');
// Browsers that hang are ended: the gate always ends.
const HANGS_MS = 30 * 60_000;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { times: { type: 'string', default: '1' }, loaded: { type: 'string', default: '0' } },
});
const isWhole = positionals[0] === 'whole';
if (isWhole) process.env.STILLSTAND_WHOLE = '1';
const which = isWhole ? 'long' : (positionals[0] ?? 'all');

const gates = [
  ['types', ['tsc', '--noEmit', '-p', '.']],
  ['types of the app', ['tsc', '--noEmit', '-p', 'surfaces/web']],
  ['lint and format', ['biome', 'check', '--error-on-warnings', '.']],
  ['arrows', ['node', 'scripts/arrows.mjs']],
  ['dead exports', ['knip', '--no-progress']],
  ['links in docs', ['node', 'scripts/links.mjs']],
  ['words', ['node', 'scripts/words.ts']],
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
// The long ones first, so that two end at about the same time.
const LONG = ['keep', 'access', 'states', 'safety'];
const lengthOf = (file) => (LONG.some((name) => file.includes(`/${name}.`)) ? 1 : 0);
const browserTests = files.filter(inBrowser).sort((a, b) => lengthOf(b) - lengthOf(a));
if (which === 'all' || which === 'browser') {
  run('a browser', ['node', 'scripts/browser.mjs']);
  driveBrowsers(browserTests, Number(values.times), Number(values.loaded));
}
if (which !== 'browser') {
  const chosen = files
    .filter((file) => !inBrowser(file))
    .filter((file) => (which === 'long' ? isLong(file) : which === 'unit' ? !isLong(file) : true));
  if (chosen.length === 0) fail('tests: none found');
  console.log('— tests');
  if (!(await runTests(chosen))) fail('tests');
}

// Three files at once, each with a browser of its own, because a browser waits more than it works; all are run, so that
// one failure hides no other.
function driveBrowsers(chosen, times, loaded) {
  if (chosen.length === 0) fail('browser tests: none found');
  // Built before, so that no two files build at once.
  run('the app', ['node', 'scripts/start.mjs', '--build-only']);
  const failures = [];
  for (let round = 1; round <= times; round++) {
    const isLoaded = round > times - loaded;
    const of = times === 1 ? '' : ` ${round} of ${times}${isLoaded ? ', every core busy' : ''}`;
    console.log(`— browser tests${of}`);
    const busy = isLoaded ? cpus().map(() => spawn(process.execPath, ['-e', 'for(;;);'])) : [];
    const { status } = spawnSync(
      process.execPath,
      [
        '--import',
        './scripts/typescript.mjs',
        '--test',
        '--test-force-exit',
        '--test-concurrency=3',
        ...chosen,
      ],
      {
        cwd: root,
        stdio: 'inherit',
        timeout: HANGS_MS,
        killSignal: 'SIGKILL',
        env: { ...process.env, STILLSTAND_APP: 'built' },
      },
    );
    if (status !== 0) failures.push(`round ${round}${isLoaded ? ', every core busy' : ''}`);
    for (const loop of busy) loop.kill('SIGKILL');
  }
  if (failures.length > 0) fail(`browser tests${times === 1 ? '' : `: ${failures.join('; ')}`}`);
}

function run(name, [command, ...rest]) {
  console.log(`— ${name}`);
  const started = performance.now();
  const program = command === 'node' ? process.execPath : join(root, 'node_modules', '.bin', command);
  const result = spawnSync(program, rest, { cwd: root, stdio: 'inherit' });
  if (result.status !== 0) fail(name);
  console.log(`  fine, ${((performance.now() - started) / 1000).toFixed(1)} s`);
}

function fail(name) {
  console.error(`The gate stopped at: ${name}.`);
  process.exit(1);
}
