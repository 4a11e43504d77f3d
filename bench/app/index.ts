/** The app in a real browser: size of what is loaded first, and how long a person waits with 10,000 readings. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export interface AppBench {
  /** Script a first visit loads, bytes packed; at most 250,000 wanted. */
  first_script_bytes: number;
  /** Campaign of 10,000 readings from home to screen; under 1,000 wanted. Best of five. */
  opened_ms: number;
  /** An edit to its place on the screen; under 50 wanted. Best of five. */
  edit_ms: number;
  tasks_over_50_ms: number[];
}

const TELL = fileURLToPath(new URL('../../surfaces/web/browser/tell-speed.ts', import.meta.url));

/** Null where there is no browser. */
export function benchApp(): AppBench | null {
  const run = spawnSync(process.execPath, ['--import', 'tsx', TELL], { encoding: 'utf8' });
  const json = run.stdout.trim().split('\n').at(-1) ?? '';
  return run.status === 0 && json.startsWith('{') ? (JSON.parse(json) as AppBench) : null;
}
