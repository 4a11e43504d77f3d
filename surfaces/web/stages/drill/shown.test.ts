/** The drawing of a hole shows no water and no plug that nobody has read for too long. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readHole } from '@stillstand/campaign/holes';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { begun } from './fixtures/crew.ts';
import { type Given, type Shown, useShown } from './shown.ts';

function Screen({ of, show }: { of: Given; show: (shown: Shown) => void }): null {
  show(useShown(of));
  return null;
}

/** The screen of a hole as it was begun, so many hours after its last reading. */
function shownAfter(hours: number, rig = begun('H1')): Shown {
  let shown: Shown | null = null;
  const now = readHole(rig.store, 'H1')!;
  const of: Given = {
    store: rig.store,
    now,
    units: [],
    sampledTo_m: null,
    expected: null,
    resuming: false,
    replaced: false,
    day: '2024-06-11',
    at_ms: Date.parse(now.entries.at(-1)!.time!) + hours * 3_600_000,
    riseSince: () => null,
  };
  const show = (is: Shown): void => {
    shown = is;
  };
  renderToStaticMarkup(createElement(Screen, { of, show }));
  return shown!;
}
const drawn = ({ view }: Shown) =>
  [view.water_inside_m, view.water_outside_m, view.head_m, view.plug_m].map((m) => m !== null);

test('water goes after three hours, the plug after four', () => {
  assert.deepEqual(drawn(shownAfter(0)), [true, true, true, true]);
  assert.deepEqual(drawn(shownAfter(2.9)), [true, true, true, true]);
  assert.deepEqual(drawn(shownAfter(3)), [false, false, false, true]);
  assert.deepEqual(drawn(shownAfter(4.1)), [false, false, false, false]);
});

test('a drive takes both at once', () => {
  const rig = begun('H1');
  rig.enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m' });
  assert.deepEqual(drawn(shownAfter(0, rig)), [false, false, false, false]);
});
