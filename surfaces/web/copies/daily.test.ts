/** A copy each day into a folder in memory: when, under which name, over what, what goes, and what is said where none is written. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readZip } from '@stillstand/campaign/document';
import { HOLE, memoryDevice, settled } from '../store/fixtures/memory-device.ts';
import type { WrittenCopy } from './copy-name.ts';
import { copiesToRemove, nameFor, withCopy } from './copy-name.ts';
import { dailyCopies } from './daily.ts';
import { memoryFolder } from './fixtures/folder.ts';
import type { Choice, CopyMemory } from './memory.ts';

const rest = async (): Promise<void> => {
  for (let i = 0; i < 20; i++) await settled();
};

function memory(): CopyMemory {
  let choice: Choice = { kind: 'off' };
  const written = new Map<string, readonly WrittenCopy[]>();
  return {
    choice: async () => choice,
    choose: async (chosen) => {
      choice = chosen;
    },
    written: async (id) => written.get(id) ?? [],
    setWritten: async (id, all) => {
      written.set(id, all);
    },
  };
}

/** A device with a campaign, a folder and a clock; `visit` opens the campaign as on a new day. */
function setUp() {
  const device = memoryDevice(HOLE);
  const kept = memory();
  const stick = memoryFolder('stick');
  let moment = new Date(2026, 10, 30, 9, 0);
  let added = 0;
  const visit = async () => {
    const { store } = await device.window();
    const daily = dailyCopies(store, {
      memory: kept,
      now: () => moment,
      fileName: () => 'campaign',
      alone: (_, work) => work(),
    });
    await rest();
    const change = async (): Promise<string> => {
      const row = store.addRow('holes', { hole: `X${added++}`, method: 'string' });
      await rest();
      return row;
    };
    const names = () => [...stick.files.keys()];
    const holesIn = async (name: string): Promise<number> => {
      const zip = new Uint8Array(await stick.files.get(name)!.arrayBuffer());
      return readZip(zip).document.tables.get('holes')!.rows.length;
    };
    return { store, daily, change, names, holesIn };
  };
  return {
    stick,
    kept,
    device,
    visit,
    at: (day: number, hour: number) => {
      moment = new Date(2026, 10, day, hour, 0);
    },
  };
}

const DAY = 'campaign-2026-11-30.zip';

test('written when chosen, with the first change of a day, and when hidden with changes; not more often', async () => {
  const { stick, visit, at } = setUp();
  const { daily, change, names, holesIn } = await visit();
  await change();
  assert.deepEqual(names(), [], 'nothing without a folder');
  await daily.choose({ kind: 'folder', folder: stick.folder });
  assert.deepEqual([names(), await holesIn(DAY)], [[DAY], 2]);
  await change();
  await change();
  assert.equal(await holesIn(DAY), 2, 'once a day');
  await daily.hidden();
  assert.equal(await holesIn(DAY), 4);
  const before = stick.files.get(DAY);
  await daily.hidden();
  assert.equal(stick.files.get(DAY), before, 'nothing changed');
  at(31, 8);
  await daily.hidden();
  assert.deepEqual(names(), [DAY], 'a day without a change has no copy');
  await change();
  assert.deepEqual(names(), [DAY, 'campaign-2026-12-01.zip']);
  assert.equal(daily.state().last?.time, '08:00');
  await daily.leave();
});

test('a copy counts as kept elsewhere; changes of the last visit are written when the page is hidden', async () => {
  const { stick, visit } = setUp();
  const first = await visit();
  await first.daily.choose({ kind: 'folder', folder: stick.folder });
  assert.equal(first.store.keptElsewhere().changes, 0);
  await first.change();
  assert.equal(first.store.keptElsewhere().changes, 1);
  // The page ends without a word; memoryDevice counts no changes, so the next visit begins with those of its own.
  const second = await visit();
  await second.change();
  await second.daily.leave();
  assert.equal(await second.holesIn(DAY), 3);
});

test('an emptier campaign replaces no copy of the day, nor a file that this device did not write', async () => {
  const { stick, visit } = setUp();
  const { store, daily, change, names, holesIn } = await visit();
  const row = await change();
  await daily.choose({ kind: 'folder', folder: stick.folder });
  store.removeRow('holes', row);
  await rest();
  await daily.hidden();
  assert.deepEqual(names(), [DAY, 'campaign-2026-11-30-2.zip']);
  assert.deepEqual([await holesIn(DAY), await holesIn('campaign-2026-11-30-2.zip')], [2, 1]);
  // Another device of the same name, with the same folder, remembers nothing of these.
  const other = setUp();
  const fresh = await other.visit();
  await fresh.daily.choose({ kind: 'folder', folder: stick.folder });
  assert.deepEqual([await holesIn(DAY), names().length], [2, 3]);
});

test('the last 14 are kept in the order of writing, whatever the clock said; other files stay', async () => {
  const { stick, visit, at } = setUp();
  const { daily, change, names } = await visit();
  stick.files.set('campaign-2020-01-01.zip', new Blob(['of another device']));
  stick.files.set('notes.txt', new Blob(['own']));
  at(400, 8);
  await daily.choose({ kind: 'folder', folder: stick.folder });
  const wrong = names().at(-1)!;
  for (let day = 1; day <= 20; day++) {
    at(day, 8);
    await change();
  }
  const kept = names().filter((name) => name.startsWith('campaign-2026-11'));
  assert.deepEqual(
    [kept.length, kept[0], kept.at(-1)],
    [14, 'campaign-2026-11-07.zip', 'campaign-2026-11-20.zip'],
  );
  assert.ok(!names().includes(wrong), 'the oldest by writing, though its date is the latest');
  assert.ok(names().includes('campaign-2020-01-01.zip') && names().includes('notes.txt'));
});

test('permission that ended is said at once; one press asks for it and writes', async () => {
  const { stick, visit, at } = setUp();
  const first = await visit();
  await first.daily.choose({ kind: 'folder', folder: stick.folder });
  await first.daily.leave();
  stick.permit('prompt');
  at(31, 8);
  const { daily, change, names } = await visit();
  assert.equal(daily.state().needsPress, true);
  assert.match(daily.state().trouble!, /may no longer write to the folder “stick”. Press Allow folder/);
  assert.equal(daily.state().last?.name, DAY);
  await change();
  assert.deepEqual([names(), stick.asked()], [[DAY], 0], 'never asked without a press');
  await daily.writeNow();
  assert.deepEqual(names(), [DAY, 'campaign-2026-12-01.zip']);
  assert.deepEqual([daily.state().trouble, daily.state().needsPress, stick.asked()], [null, false, 1]);
});

test('a folder that is gone, a full disk, a read-only one: said with what to do, the earlier copy whole, tried again', async () => {
  const { stick, visit, at } = setUp();
  const { daily, change, names, holesIn, store } = await visit();
  await daily.choose({ kind: 'folder', folder: stick.folder });
  await change();
  stick.fail('QuotaExceededError');
  await daily.hidden();
  assert.match(daily.state().trouble!, /disk with the folder “stick” is full. Free up storage/);
  assert.deepEqual([names(), await holesIn(DAY), daily.state().last?.name], [[DAY], 1, DAY]);
  assert.equal(store.keptElsewhere().changes, 1, 'not called kept');
  stick.fail('NoModificationAllowedError');
  await daily.hidden();
  assert.match(daily.state().trouble!, /read only, or its file is open in another program/);
  at(31, 8);
  await change();
  assert.deepEqual(names(), [DAY], 'no empty file is left of a copy that failed');
  stick.fail(null);
  stick.take(true);
  await daily.hidden();
  assert.match(daily.state().trouble!, /“stick” is no longer there. Connect its drive/);
  stick.take(false);
  await daily.hidden();
  assert.equal(daily.state().trouble, null);
  assert.equal(await holesIn('campaign-2026-12-01.zip'), 3);
});

test('a device that refuses changes has them in the copy, and the campaign may be closed under the last one', async () => {
  const { stick, visit, device } = setUp();
  const { store, daily, names, holesIn } = await visit();
  await daily.choose({ kind: 'folder', folder: stick.folder });
  device.refuse(new DOMException('', 'QuotaExceededError'));
  store.addRow('holes', { hole: 'only here', method: 'string' });
  const left = daily.leave();
  const closed = store.close();
  await Promise.all([left, closed]);
  assert.deepEqual([names(), await holesIn(DAY)], [[DAY], 2]);
  device.refuse(null);
});

test('where there are no folders a person is reminded once a day, when there are changes', async () => {
  const { visit, at } = setUp();
  const { daily, change } = await visit();
  await daily.choose({ kind: 'remind' });
  assert.equal(daily.state().isDue, false);
  await change();
  assert.equal(daily.state().isDue, true);
  await daily.noteSaved('campaign.zip');
  assert.deepEqual([daily.state().isDue, daily.state().last?.day], [false, '2026-11-30']);
  await change();
  assert.equal(daily.state().isDue, false, 'once a day');
  at(31, 8);
  await change();
  assert.equal(daily.state().isDue, true);
  await daily.choose({ kind: 'off' });
  assert.equal(daily.state().isDue, false);
});

test('an empty file left by a page that ended is taken for no copy', async () => {
  const { stick, visit } = setUp();
  const { daily, names } = await visit();
  stick.files.set(DAY, new Blob([]));
  await daily.choose({ kind: 'folder', folder: stick.folder });
  assert.deepEqual(names(), [DAY]);
  assert.ok(stick.files.get(DAY)!.size > 0);
});

test('names: the day’s own while it grows, the next number where it would hide more', async () => {
  const copy = (name: string, rows: number): WrittenCopy => ({
    name,
    day: '2026-11-30',
    time: '09:00',
    rows,
    files: 0,
  });
  const written = [copy('N-2026-11-30.zip', 10), copy('N-2026-11-30-2.zip', 5)];
  const name = (rows: number) => nameFor('N', '2026-11-30', { rows, files: 0 }, written, async () => true);
  assert.equal(await name(10), 'N-2026-11-30.zip');
  assert.equal(await name(7), 'N-2026-11-30-2.zip');
  assert.deepEqual(
    withCopy(written, copy('N-2026-11-30.zip', 12)).map(({ rows }) => rows),
    [5, 12],
  );
  const many = Array.from({ length: 16 }, (_, i) => copy(`${i}`, i));
  assert.deepEqual(
    copiesToRemove(many).map(({ rows }) => rows),
    [0, 1],
  );
  assert.deepEqual(copiesToRemove(many.slice(0, 1)), []);
});
