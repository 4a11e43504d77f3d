/** Curve and age against depth by threads of Node: the bytes of one thread, whatever the number. Seed 5. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { inProcess, withCrew } from '@stillstand/science/base';
import { CASES, written } from './cases.ts';
import { nodeCrew } from './node-crew.ts';

test('1, 2 and 4 threads give the bytes of none: a curve with its rates again, ages against depth (seed 5)', async () => {
  const here = Object.values(CASES).map((work) => written(inProcess(work())));
  for (const threads of [1, 2, 4]) {
    const { crew } = nodeCrew(threads);
    const there: string[] = [];
    for (const work of Object.values(CASES)) there.push(written(await withCrew(work(), crew)));
    await crew.dismiss();
    assert.deepEqual(there, here, `${threads} threads`);
  }
});

test('a computation that is given up leaves no thread running', async () => {
  const { crew, running } = nodeCrew(2);
  const enough = new Error('enough');
  let heard = 0;
  const given = withCrew(CASES['curve']!(), crew, () => {
    if (++heard === 3) throw enough;
  });
  assert.equal(running(), 2);
  await assert.rejects(given, (error) => error === enough);
  assert.equal(running(), 0);
});
