/** The demo end to end in a fresh process: seconds and peak memory, as `npm run demo` takes them once set up. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export interface DemoBench {
  /** Wall clock of the whole process, s; the least of the repeats. */
  seconds: number;
  /** Peak resident memory, MB. */
  peak_megabytes: number;
}

const RUN = fileURLToPath(new URL('../../demo/run.js', import.meta.url));
// Told on leaving by the process itself; the unit of maxRSS is the kilobyte.
const TELL =
  'data:text/javascript,process.on("exit",()=>process.stderr.write("peak "+process.resourceUsage().maxRSS))';

export function benchDemo(repeats = 3): DemoBench {
  let seconds = Infinity;
  let peak = 0;
  for (let k = 0; k < repeats; k++) {
    const begin = performance.now();
    const run = spawnSync(process.execPath, ['--import', TELL, RUN], { encoding: 'utf8' });
    if (run.status !== 0) throw new Error(`the demo ended with ${run.status}: ${run.stderr}`);
    seconds = Math.min(seconds, (performance.now() - begin) / 1000);
    peak = Math.max(peak, Number(/peak (\d+)/.exec(run.stderr)?.[1] ?? 0) / 1000);
  }
  return { seconds, peak_megabytes: peak };
}
