import assert from 'node:assert/strict';
import { test } from 'node:test';
import { workingHole } from './working-hole.ts';

const hole = (label: string, state: string | null, replaces: string | null = null) => ({
  hole: label,
  state,
  method: 'string',
  replaces,
});

test('a lost hole stays in sight until another replaces it; then the replacement does', () => {
  const holes = [hole('T1', 'lost'), hole('T2', 'planned'), hole('T3', 'planned')];
  assert.equal(workingHole(holes, 'T1'), 'T1');
  assert.equal(workingHole([...holes, hole('T1b', 'planned', 'T1')], 'T1'), 'T2');
  assert.equal(workingHole([...holes, hole('T1b', 'open', 'T1')], 'T1'), 'T1b');
  // others that are open do not take its place
  assert.equal(workingHole([...holes, hole('T4', 'open')], 'T1'), 'T1');
  // lost long ago, and others drilled since
  assert.equal(workingHole([hole('T1', 'lost'), hole('T2', 'finished'), hole('T3', 'planned')], 'T2'), 'T3');
});

test('open before suspended before planned before ended', () => {
  const holes = [hole('A', 'finished'), hole('B', 'suspended'), hole('C', 'open'), hole('D', null)];
  assert.equal(workingHole(holes, 'A'), 'C');
  // of two that go on, the one last worked on
  assert.equal(workingHole(holes, 'B'), 'B');
  assert.equal(
    workingHole(
      holes.filter((h) => h.state !== 'open'),
      'A',
    ),
    'B',
  );
  assert.equal(workingHole([holes[0]!, holes[3]!], 'A'), 'D');
  assert.equal(workingHole([holes[0]!], null), 'A');
  assert.equal(workingHole([], null), null);
});
