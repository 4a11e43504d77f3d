import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { LongJob } from '@stillstand/campaign/steps';
import { longSteps, type Thread } from './long-steps.ts';
import type { LongAnswered, LongAsked } from './protocol.ts';

const job = (key: string): LongJob => ({ key, step: 'curve', values: {} });

/** A thread that does nothing of itself: the test answers for it. */
function played(canShare = true) {
  const threads: { asked: LongAsked[]; ended: boolean; thread: Thread }[] = [];
  const done: string[] = [];
  const values: unknown[] = [];
  const last: string[] = [];
  const shares: number[] = [];
  const failures: string[] = [];
  const steps = longSteps(
    () => {
      const asked: LongAsked[] = [];
      const thread: Thread = {
        postMessage: (message: LongAsked) => asked.push(message),
        terminate: () => {
          each.ended = true;
        },
        onmessage: null,
        onerror: null,
      };
      const each = { asked, ended: false, thread };
      threads.push(each);
      return thread;
    },
    canShare,
    {
      done: ({ key }, value, isLast) => {
        done.push(key);
        values.push(value);
        if (isLast) last.push(key);
      },
      progress: (share) => shares.push(share),
      failed: (message) => failures.push(message),
    },
  );
  const says = (message: LongAnswered): void => {
    const { thread } = threads.at(-1)!;
    thread.onmessage?.({ data: message } as MessageEvent<LongAnswered>);
  };
  const asked = (): LongAsked => threads.at(-1)!.asked.at(-1)!;
  return { steps, threads, done, last, values, shares, failures, says, asked };
}

test('jobs are done one after another, and progress is of all of them', () => {
  const { steps, threads, done, last, shares, says, asked } = played();
  steps.want([job('curve'), job('ages')]);
  assert.deepEqual([threads.length, asked().job.key], [1, 'curve']);
  says({ kind: 'progress', turn: asked().turn, done: 1, of: 2 });
  says({ kind: 'done', turn: asked().turn, value: 1 });
  assert.equal(asked().job.key, 'ages');
  says({ kind: 'progress', turn: asked().turn, done: 1, of: 2 });
  says({ kind: 'done', turn: asked().turn, value: 2 });
  assert.deepEqual([done, last, shares], [['curve', 'ages'], ['ages'], [0.25, 0.75]]);
});

test('an edit that leaves the curve as it was does not begin it again; one that changes it gives it up', () => {
  const { steps, threads, done, values, says, asked } = played();
  steps.want([job('curve')]);
  const first = asked();
  steps.keepOnly([job('curve'), job('other')]);
  steps.want([job('curve'), job('other')]);
  assert.equal(threads[0]!.asked.length, 1);
  const stop = new Int32Array(first.stop!);
  assert.equal(stop[0], first.turn);
  steps.keepOnly([job('changed')]);
  assert.notEqual(stop[0], first.turn);
  assert.equal(threads[0]!.asked.length, 1);
  steps.want([job('changed')]);
  // What the old one still says is heard by nobody.
  says({ kind: 'given up', turn: first.turn });
  says({ kind: 'done', turn: first.turn, value: 'old' });
  says({ kind: 'done', turn: asked().turn, value: 'new' });
  // The result of another job under this key would be another curve, remembered as this one.
  assert.deepEqual([done, values], [['changed'], ['new']]);
});

test('without shared memory a job that is not wanted ends with its thread', () => {
  const { steps, threads, done, says, asked } = played(false);
  steps.want([job('curve')]);
  steps.want([job('changed')]);
  assert.deepEqual([threads.length, threads[0]!.ended, asked().job.key], [2, true, 'changed']);
  says({ kind: 'done', turn: asked().turn, value: 1 });
  assert.deepEqual(done, ['changed']);
  steps.keepOnly([]);
  assert.equal(threads[1]!.ended, false);
});

test('a thread that fails is said, and the next wish starts another', () => {
  const { steps, threads, failures, done, says, asked } = played();
  steps.want([job('curve'), job('ages')]);
  threads[0]!.thread.onerror?.({ message: 'the sieve is full' } as ErrorEvent);
  assert.deepEqual([failures, threads[0]!.ended, threads.length], [['the sieve is full'], true, 1]);
  steps.want([job('curve')]);
  assert.equal(threads.length, 2);
  says({ kind: 'done', turn: asked().turn, value: 1 });
  assert.deepEqual(done, ['curve']);
});
