/**
 * The long steps of a campaign, done one after another in a worker of their own. Asked for others, it gives up the one
 * that is being done, unless it is among them: an edit that changes nothing of the curve does not begin it again.
 */
import type { LongJob } from '@stillstand/campaign/steps';
import type { LongAnswered, LongAsked } from './protocol.ts';

export interface LongSteps {
  /** Gives up all but these; none is begun. */
  keepOnly(jobs: readonly LongJob[]): void;
  /** Wants these done, and no others. */
  want(jobs: readonly LongJob[]): void;
}

interface Heard {
  /** `isLast`: of all that are wanted. */
  done(job: LongJob, value: unknown, isLast: boolean): void;
  /** Of all that are wanted, 0 to 1, and of the job that is being done. */
  progress(share: number, job: LongJob, ofJob: number): void;
  failed(message: string): void;
}

/** What a `Worker` is asked for here; a test gives its own. */
export type Thread = Pick<Worker, 'postMessage' | 'terminate'> & {
  onmessage: ((event: MessageEvent<LongAnswered>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
};

export function longSteps(start: () => Thread, canShare: boolean, heard: Heard): LongSteps {
  const stop = canShare ? new SharedArrayBuffer(4) : null;
  let thread: Thread | null = null;
  let turn = 0;
  let doing: LongJob | null = null;
  let queue: readonly LongJob[] = [];
  /** Of the jobs wanted, so many are behind us. */
  let finished = 0;

  const halt = (): void => {
    if (doing === null) return;
    turn += 1;
    doing = null;
    if (stop !== null) Atomics.store(new Int32Array(stop), 0, turn);
    else {
      // Without shared memory a job cannot hear that it is no longer wanted.
      thread?.terminate();
      thread = null;
    }
  };

  const next = (): void => {
    const [job, ...rest] = queue;
    if (doing !== null || job === undefined) return;
    queue = rest;
    turn += 1;
    doing = job;
    if (stop !== null) Atomics.store(new Int32Array(stop), 0, turn);
    thread ??= listened(start());
    thread.postMessage({ turn, job, stop } satisfies LongAsked);
  };

  const listened = (made: Thread): Thread => {
    made.onmessage = ({ data: message }) => {
      if (message.turn !== turn || doing === null) return;
      if (message.kind === 'progress') {
        const share = message.of === 0 ? 0 : message.done / message.of;
        heard.progress((finished + share) / (finished + 1 + queue.length), doing, share);
      }
      if (message.kind === 'done') {
        const job = doing;
        doing = null;
        finished += 1;
        heard.done(job, message.value, queue.length === 0);
        next();
      }
    };
    made.onerror = (event) => {
      made.terminate();
      thread = null;
      doing = null;
      queue = [];
      heard.failed(event.message ?? '');
    };
    return made;
  };

  const keepOnly = (jobs: readonly LongJob[]): void => {
    queue = [];
    if (!jobs.some(({ key }) => key === doing?.key)) halt();
  };

  return {
    keepOnly,
    want: (jobs) => {
      keepOnly(jobs);
      finished = 0;
      queue = jobs.filter(({ key }) => key !== doing?.key);
      next();
    },
  };
}
