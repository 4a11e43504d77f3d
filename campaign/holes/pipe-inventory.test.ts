import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { randomStream } from '@stillstand/science/base';
import { pipeInventory, whereWords } from './pipe-inventory.ts';
import { pipeProblems } from './pipe-problems.ts';

type Cells = Record<string, string>;

/** "A1 add 3.00" in a hole, each a minute after the last; `state` of each hole. */
function campaignOf(
  states: Record<string, string>,
  told: readonly (readonly [string, string])[],
  timed = true,
) {
  const seq = new Map<string, number>();
  const joints = told.map(([hole, words], i): Cells => {
    const [label = '', action = '', length = ''] = words.split(' ');
    seq.set(hole, (seq.get(hole) ?? 0) + 1);
    return {
      row_id: `j${i}`,
      hole,
      action,
      item: label.startsWith('S') ? 'shoe' : 'joint',
      joint: label,
      length: length === '' ? '' : `${length} m`,
      seq: String(seq.get(hole)),
      time: timed ? `2024-03-05T08:${String(i).padStart(2, '0')}:00+08:00` : '',
    };
  });
  let document = withRows(
    newDocument('pipe'),
    'holes',
    Object.entries(states).map(([hole, state]) => ({ row_id: hole, hole, state, method: 'string' })),
  );
  document = withRows(document, 'string_items', joints);
  return parseCampaign(document).campaign;
}

const whereabouts = (campaign: Parameters<typeof pipeInventory>[0]) =>
  pipeInventory(campaign).map((i) => `${i.label} ${whereWords(i)}${i.isAtHand ? ', at hand' : ''}`);

test('lost, left, in another open hole, not accounted for: none of it is at hand, and what hung below is gone too', () => {
  const campaign = campaignOf({ H1: 'lost', H2: 'open', H3: 'finished', H4: 'planned' }, [
    ['H1', 'S1 add 0.15'],
    ['H1', 'A1 add 3.00'],
    ['H1', 'A2 add 3.00'],
    ['H1', 'A3 add 3.00'],
    ['H1', 'A3 pull'],
    // parted above A2: one row takes A1 and the shoe along
    ['H1', 'A2 lost'],
    ['H2', 'B1 add 3.00'],
    ['H3', 'C1 add 3.00'],
    ['H3', 'C2 add 3.00'],
    ['H3', 'C3 add 3.00'],
    ['H3', 'C3 cut 0.40'],
    ['H3', 'C3 pull'],
    ['H3', 'C2 left'],
    ['H3', 'C4 add 3.00'],
  ]);
  assert.deepEqual(whereabouts(campaign), [
    'S1 lost in H1',
    'A1 lost in H1',
    'A2 lost in H1',
    'A3 pulled from H1, at hand',
    'B1 in the string of H2',
    'C1 left in H3',
    'C2 left in H3',
    'C3 cut in H3, to be measured again, at hand',
    'C4 not accounted for in H3',
  ]);
  assert.deepEqual(
    pipeInventory(campaign).map((i) => i.length_m?.toFixed(2)),
    ['0.15', '3.00', '3.00', '3.00', '3.00', '3.00', '3.00', '2.60', '3.00'],
  );
});

test('a label used again follows the clock; without one it is where it cannot be had; the double use is named', () => {
  const told = [
    ['H2', 'A1 add 3.00'],
    ['H2', 'A1 pull'],
    ['H1', 'A1 add 3.00'],
    ['H1', 'A1 lost'],
  ] as const;
  assert.deepEqual(whereabouts(campaignOf({ H1: 'lost', H2: 'finished' }, told)), ['A1 lost in H1']);
  // the same in the other order of the clock: dug out, or another joint under its number
  const later = [told[2], told[3], told[0], told[1]];
  const reused = campaignOf({ H1: 'lost', H2: 'finished' }, later);
  assert.deepEqual(whereabouts(reused), ['A1 pulled from H2, at hand']);
  assert.deepEqual(
    pipeProblems(reused).map((p) => [p.code, p.severity, p.label, p.found]),
    [['pipe-elsewhere', 'warning', 'H2', 'joint A1, lost in H1']],
  );
  for (const order of [told, later])
    assert.deepEqual(whereabouts(campaignOf({ H1: 'lost', H2: 'finished' }, order, false)), [
      'A1 lost in H1',
    ]);
  // two open holes, one label
  const both = campaignOf({ H1: 'open', H2: 'open' }, [told[0], told[2]]);
  assert.deepEqual(
    pipeProblems(both).map((p) => p.found),
    ['joint A1, in the string of H2'],
  );
});

test('random campaigns: no item that did not come back is ever at hand: seed 211', () => {
  const stream = randomStream(211);
  for (let campaign = 0; campaign < 200; campaign++) {
    const told: [string, string][] = [];
    const states: Record<string, string> = {};
    // the twin: what lies ready, hole by hole, as a person carries it
    const ready = new Set(['J1', 'J2', 'J3', 'J4', 'J5', 'J6']);
    const gone = new Set<string>();
    for (let h = 1; h <= 4 && ready.size > 0; h++) {
      const hole = `H${h}`;
      const string: string[] = [];
      for (const label of [...ready].slice(0, 1 + Math.floor(stream.uniform() * 4))) {
        told.push([hole, `${label} add 3.00`]);
        string.push(label);
        ready.delete(label);
      }
      while (string.length > 0 && stream.uniform() < 0.8) {
        const label = string.pop()!;
        if (stream.uniform() < 0.25) {
          told.push([hole, `${label} ${stream.uniform() < 0.5 ? 'lost' : 'left'}`]);
          for (const below of [label, ...string.splice(0)]) gone.add(below);
        } else {
          told.push([hole, `${label} pull`]);
          ready.add(label);
        }
      }
      // ended or not, what is still in the string is not at hand
      states[hole] = stream.uniform() < 0.5 ? 'finished' : 'open';
      for (const label of string) gone.add(label);
    }
    const items = pipeInventory(campaignOf(states, told));
    for (const i of items)
      assert.equal(i.isAtHand, ready.has(i.label) && !gone.has(i.label), `${campaign} ${i.label}`);
  }
});
