/**
 * Runs test files, two processes at once. To start a process costs more than most files take, so the files of a
 * workspace share one, and these have one to themselves: what takes long or starts programs and waits for them;
 * what starts threads, because a process that frees the WebAssembly of many threads among much else can be ended by
 * the engine itself ("jit_page_->allocations_", nodejs/node issue 64500, seen in Node 24.21); and what prepares in a
 * hook of the whole process (`before` at the top), because node:test then loses the tests of a file that awaits at its
 * top meanwhile (seen there too).
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const AT_ONCE = 2;
const LAST_LINES = 25;
/** So many of the longest are listed: what the gate's time is spent on. */
const LONGEST = 12;

// The longest first: the shorter ones then fill the other core.
const APART = [
  /\.long\.test\.tsx?$/,
  /^surfaces\/cli\/cli\.test\.ts$/,
  /^surfaces\/cli\/disk\/write\.test\.ts$/,
  /^checks\/(document|bad-input|chains)\//,
];

/** Long ones that share what takes a minute to compute. */
const TOGETHER = ['checks/results/numbers.long.test.ts', 'checks/whole-way/real-curve.long.test.ts'];

/** Which files share a process, in the order in which the processes are to begin. */
export function processesOf(files: readonly string[]): string[][] {
  const sorted = [...files].sort();
  const together = sorted.filter((file) => TOGETHER.includes(file));
  const apart = [...new Set(APART.flatMap((pattern) => sorted.filter((file) => pattern.test(file))))];
  const preparing = sorted.filter(
    (file) => !apart.includes(file) && /^before(Each)?\(/m.test(readFileSync(join(root, file), 'utf8')),
  );
  const shared = Map.groupBy(
    sorted.filter((file) => !apart.includes(file) && !preparing.includes(file)),
    (file) => /^surfaces\/\w+|^\w+/.exec(file)?.[0] ?? file,
  );
  const groups = [...shared.values()].sort((a, b) => b.length - a.length);
  const alone = apart.filter((file) => !together.includes(file)).map((file) => [file]);
  return [
    ...(together.length > 0 ? [together] : []),
    ...alone,
    ...groups,
    ...preparing.map((file) => [file]),
  ];
}

/** Runs them all, prints what each process printed when it ends, then the sums; whether every test passed. */
export async function runTests(files: readonly string[]): Promise<boolean> {
  const started = performance.now();
  const waiting = processesOf(files);
  const folder = mkdtempSync(join(tmpdir(), 'stillstand-tests-'));
  const sums = { tests: 0, passed: 0, failed: 0, skipped: 0 };
  const failures: string[] = [];
  const counted = new Set<string>();
  const lengths: { name: string; seconds: number }[] = [];
  const worker = async (): Promise<void> => {
    for (let own = waiting.shift(); own !== undefined; own = waiting.shift()) {
      const summary = join(folder, `${own[0]!.replaceAll('/', '-')}.jsonl`);
      const name = own.length === 1 ? own[0]! : `${own.length} files, the first of them ${own[0]}`;
      const began = performance.now();
      const { end, printed } = await run(own, summary);
      lengths.push({ name, seconds: (performance.now() - began) / 1000 });
      process.stdout.write(printed);
      const lines = existsSync(summary) ? readFileSync(summary, 'utf8').trim().split('\n') : [];
      for (const line of lines.filter((text) => text !== '')) {
        const said = JSON.parse(line) as { file: string } | typeof sums;
        if ('file' in said) counted.add(said.file);
        else for (const key of ['tests', 'passed', 'failed', 'skipped'] as const) sums[key] += said[key];
      }
      if (end !== 0)
        failures.push(
          `${name} (ended with ${end})`,
          // Of a process that the engine or the machine has ended, what it printed last is all that says why.
          ...(typeof end === 'string' ? printed.trimEnd().split('\n').slice(-LAST_LINES) : []),
        );
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
  rmSync(folder, { recursive: true, force: true });
  // A file whose tests were lost would pass unseen.
  for (const file of files)
    if (!counted.has(join(root, file))) failures.push(`${file}: no test of it was run`);
  console.log('  the longest, s:');
  for (const { name, seconds } of lengths.sort((a, b) => b.seconds - a.seconds).slice(0, LONGEST))
    console.log(`  ${seconds.toFixed(0).padStart(5)}  ${name}`);
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  console.log(
    `  ${sums.tests} tests in ${files.length} files: ${sums.passed} passed, ${sums.failed} failed, ${sums.skipped} skipped, ${seconds} s`,
  );
  for (const failure of failures) console.error(`  failed: ${failure}`);
  return failures.length === 0 && sums.failed === 0;
}

/** `end`: the exit code, or the name of the signal that ended the process. */
function run(files: readonly string[], summary: string): Promise<{ end: number | string; printed: string }> {
  const child = spawn(
    process.execPath,
    [
      '--import',
      './scripts/typescript.mjs',
      '--test',
      '--test-isolation=none',
      '--test-reporter=spec',
      '--test-reporter-destination=stdout',
      `--test-reporter=${join(root, 'scripts', 'test-counts.ts')}`,
      `--test-reporter-destination=${summary}`,
      ...files,
    ],
    { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const printed: Buffer[] = [];
  child.stdout.on('data', (chunk: Buffer) => printed.push(chunk));
  child.stderr.on('data', (chunk: Buffer) => printed.push(chunk));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) =>
      resolve({ end: signal ?? code ?? 'no exit code', printed: Buffer.concat(printed).toString() }),
    );
  });
}
