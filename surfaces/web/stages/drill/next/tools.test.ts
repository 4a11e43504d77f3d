/** The keys always within one press: the same ones in every state, those that wait with the reason. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { HoleState } from '@stillstand/campaign/holes';
import { begun, crewAt } from '../fixtures/crew.ts';
import type { ActionName } from './action.ts';
import { toolsOf } from './action-words.ts';

const held = (now: HoleState, next: ActionName, canRun = true): Record<string, string | null> =>
  Object.fromEntries(toolsOf(now, next, canRun).map((tool) => [tool.name, tool.held]));

test('every state has the same keys in the same order', () => {
  const rig = begun('H1');
  const states = [crewAt('H2').now(), rig.now(), { ...rig.now(), ended: true }];
  rig.enter('run', { start_mark: '1.02 m', run: 'R1' });
  states.push(rig.now());
  for (const now of states)
    for (const next of ['add', 'sound', 'drive', 'lift', 'check'] as const)
      assert.deepEqual(Object.keys(held(now, next)), ['sound', 'water', 'fill', 'add', 'drive', 'run']);
});

test('what waits says why: no string, no room, the sampler in the hole, the end', () => {
  const empty = held(crewAt('H2').now(), 'ground');
  assert.deepEqual([empty['add'], empty['drive'], empty['sound']], [null, 'No string yet', 'No string yet']);
  const rig = begun('H1');
  const begunHole = held(rig.now(), 'drive', false);
  assert.equal(begunHole['drive'], 'Suggested now');
  assert.match(begunHole['run'] ?? '', /^Sediment not sounded/);
  assert.equal(held(rig.now(), 'mark')['run'], null);
  rig.enter('run', { start_mark: '1.02 m', run: 'R1' });
  const inHand = held(rig.now(), 'lift');
  assert.deepEqual(
    [inHand['sound'], inHand['water'], inHand['drive']],
    [null, null, 'The sampler is in the hole'],
  );
  assert.equal(held({ ...rig.now(), ended: true }, 'next_hole')['sound'], 'The hole has ended');
});
