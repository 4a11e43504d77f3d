/** Does long steps from their plain values: it knows no campaign and parses nothing. */
import { doLongJob } from '@stillstand/campaign/steps';
import type { LongAnswered, LongAsked } from './protocol.ts';

/** Time between words on progress, ms: each has the page draw a number again. */
const TOLD_EVERY_MS = 200;
// biome-ignore lint/plugin: says how far the computation is, and nothing of what it gives
const now_ms = (): number => performance.now();

const answer = (message: LongAnswered): void => self.postMessage(message);
const STALE = Symbol('this job is no longer wanted');

self.onmessage = ({ data: { turn, job, stop } }: MessageEvent<LongAsked>): void => {
  const wanted = stop === null ? null : new Int32Array(stop);
  let told = now_ms();
  const onProgress = (done: number, of: number): void => {
    if (wanted !== null && Atomics.load(wanted, 0) !== turn) throw STALE;
    if (now_ms() - told < TOLD_EVERY_MS) return;
    told = now_ms();
    answer({ kind: 'progress', turn, done, of });
  };
  try {
    onProgress(0, 0);
    answer({ kind: 'done', turn, value: doLongJob(job, onProgress) });
  } catch (error) {
    if (error !== STALE) throw error;
    answer({ kind: 'given up', turn });
  }
};
