import assert from 'node:assert/strict';
import { test } from 'node:test';
import * as Y from 'yjs';
import { settled } from './fixtures/memory-device.ts';
import { writing } from './writing.ts';

function update(key: string): Uint8Array {
  const doc = new Y.Doc();
  doc.getMap('rows').set(key, true);
  return Y.encodeStateAsUpdate(doc);
}

test('a change made at any moment of the last one’s writing is written, and nothing is called saved before', async () => {
  for (let moments = 0; moments < 12; moments++) {
    const kept = new Y.Doc();
    const onDevice = (): string[] => [...kept.getMap('rows').keys()];
    const waits = writing(
      async (bytes) => {
        await Promise.resolve();
        Y.applyUpdate(kept, bytes);
      },
      () => {
        if (waits.state === 'saved') assert.deepEqual([...waits.unsaved], []);
      },
    );
    waits.push(update('one'), ['one']);
    assert.deepEqual([waits.state, [...waits.unsaved]], ['saving', ['one']]);
    for (let i = 0; i < moments; i++) await Promise.resolve();
    waits.push(update('two'), ['two']);
    assert.equal(waits.state, 'saving');
    assert.ok(waits.unsaved.has('two'));
    await settled();
    assert.deepEqual([waits.state, onDevice()], ['saved', ['one', 'two']], `${moments} moments later`);
  }
});

test('what is refused is tried again, together with what came since, in one piece', async () => {
  let isFull = true;
  const tries: (() => void)[] = [];
  const kept = new Y.Doc();
  const waits = writing(
    async (bytes) => {
      if (isFull) throw new DOMException('', 'QuotaExceededError');
      Y.applyUpdate(kept, bytes);
    },
    () => undefined,
    (work) => tries.push(work),
  );
  waits.push(update('one'), ['one']);
  await settled();
  waits.push(update('two'), ['two']);
  await settled();
  assert.deepEqual(
    [waits.state, waits.failure, [...waits.unsaved]],
    ['failed', 'this device is full', ['one', 'two']],
  );
  isFull = false;
  for (const again of tries) again();
  await settled();
  assert.deepEqual([waits.state, waits.failure, waits.unsaved.size], ['saved', null, 0]);
  assert.deepEqual([...kept.getMap('rows').keys()].sort(), ['one', 'two']);
});
