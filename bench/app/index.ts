/**
 * The app in a real browser: size of what is loaded first, how long a person waits with 10,000 readings, and how soon the
 * curve follows an edit.
 */
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
  /** A key of the pad in Drill to the frame that shows it, at most 50 wanted; a reading to book, numbers and drawing, at
   * most 200. */
  key_ms: number;
  recorded_ms: number;
  /** A key in the form of a date, in processor time of the page; at most 50 wanted. */
  date_key_ms: number;
  /** From nothing to the demo's rate by what the page offers, seconds of waiting; at most 30 wanted. */
  to_a_rate_s: number;
}

export interface AppCurveBench {
  points: number;
  /** A point switched off to the moved curve drawn, a first look at it; at most 100 wanted for the demo's 34 points. Best
   * and median of eight. */
  first_look_ms: number;
  first_look_median_ms: number;
  /** The same to the whole curve; best of eight. */
  final_ms: number;
  /** Longest task of the page meanwhile, in processor time; at most 50 wanted. */
  longest_task_ms: number;
}

export const benchApp = (): AppBench | null => told<AppBench>('tell-speed.ts');

/** The demo, and invented campaigns of 50 and 200 points. */
export const benchAppCurve = (): AppCurveBench[] | null => told<AppCurveBench[]>('tell-curve-speed.ts');

/** What a script of the app's own prints last; null where there is no browser. */
function told<T>(script: string): T | null {
  const path = fileURLToPath(new URL(`../../surfaces/web/browser/${script}`, import.meta.url));
  const run = spawnSync(process.execPath, ['--import', 'tsx', path], { encoding: 'utf8' });
  const json = run.stdout.trim().split('\n').at(-1) ?? '';
  return run.status === 0 && /^[[{]/.test(json) ? (JSON.parse(json) as T) : null;
}
