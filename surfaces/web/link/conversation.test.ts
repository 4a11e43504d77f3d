/** Two devices on a link in memory: whatever becomes of it, a copy is whole or it is not there, and each side knows which. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { converse, type Hello, type Outcome } from './conversation.ts';
import { wires } from './fixtures/wires.ts';

const US: Hello = { campaign: 'c-1', name: 'North coast' };
const copy = (bytes: number, step: number): Blob =>
  new Blob([new Uint8Array(bytes).map((_, i) => (i * step) % 251)], { type: 'application/zip' });
const OURS = copy(300_000, 7);
const THEIRS = copy(120_001, 11);
const bytesOf = async (blob: Blob | null): Promise<Uint8Array | null> =>
  blob === null ? null : new Uint8Array(await blob.arrayBuffer());

const never = (): AbortSignal => new AbortController().signal;

interface Side {
  hello?: Hello;
  zip?: Blob | null;
  signal?: AbortSignal;
}

const run = (
  { a, b }: Pick<ReturnType<typeof wires>, 'a' | 'b'>,
  one: Side = {},
  two: Side = {},
): Promise<[Outcome, Outcome]> =>
  Promise.all([
    converse(
      a,
      one.hello ?? US,
      one.zip === undefined ? OURS : one.zip,
      () => undefined,
      one.signal ?? never(),
    ),
    converse(
      b,
      two.hello ?? US,
      two.zip === undefined ? THEIRS : two.zip,
      () => undefined,
      two.signal ?? never(),
    ),
  ]);

test('both copies arrive whole, and both sides know it', async () => {
  const seen: number[] = [];
  const { a, b } = wires();
  const [one, two] = await Promise.all([
    converse(a, US, OURS, ({ sent, received }) => seen.push(sent + received), never()),
    converse(b, US, THEIRS, () => undefined, never()),
  ]);
  assert.deepEqual([one.trouble, two.trouble, one.isSent, two.isSent], [null, null, true, true]);
  assert.deepEqual(await bytesOf(one.received), await bytesOf(THEIRS));
  assert.deepEqual(await bytesOf(two.received), await bytesOf(OURS));
  assert.equal(one.received?.type, 'application/zip');
  assert.equal(seen.at(-1), OURS.size + THEIRS.size);
  assert.ok(seen.every((each, i) => i === 0 || each >= seen[i - 1]!));
});

test('a device without a campaign receives; two without part in peace', async () => {
  const [one, two] = await run(wires(), {}, { hello: { campaign: null, name: '' }, zip: null });
  assert.deepEqual(
    [one.trouble, two.trouble, one.isSent, one.received, two.isSent],
    [null, null, true, null, false],
  );
  assert.deepEqual(await bytesOf(two.received), await bytesOf(OURS));
  const none = { hello: { campaign: null, name: '' }, zip: null };
  const [three] = await run(wires(), none, none);
  assert.deepEqual([three.trouble, three.received], [null, null]);
});

test('cut after any message: each copy is whole or absent, the sender claims no more, and neither side waits', async () => {
  const whole = wires();
  await run(whole);
  let halves = 0;
  for (let cutAfter = 0; cutAfter < whole.messages(); cutAfter++) {
    const [one, two] = await run(wires({ cutAfter }));
    for (const [us, them, theirs] of [
      [one, two, THEIRS],
      [two, one, OURS],
    ] as const) {
      if (us.received !== null)
        assert.deepEqual(await bytesOf(us.received), await bytesOf(theirs), `${cutAfter}`);
      if (them.isSent) assert.notEqual(us.received, null, `claimed after ${cutAfter} messages`);
      assert.ok(us.trouble === 'cut' || us.trouble === null);
    }
    if ((one.received === null) !== (two.received === null)) halves += 1;
    if (cutAfter < 10) assert.deepEqual([one.trouble, two.trouble], ['cut', 'cut']);
  }
  assert.ok(halves > 0, 'some cuts fall between the two');
});

test('another campaign, another version and a copy that is too large are named on both sides; nothing is sent', async () => {
  const sent: unknown[] = [];
  const spy = () =>
    wires({
      change: (data) => {
        if (typeof data !== 'string') sent.push(data);
        return data;
      },
    });
  const other = { hello: { campaign: 'c-2', name: 'South coast' } };
  assert.deepEqual(
    (await run(spy(), {}, other)).map(({ trouble, received, them }) => [trouble, received, them?.name]),
    [
      ['other campaign', null, 'South coast'],
      ['other campaign', null, 'North coast'],
    ],
  );
  const newer = wires({
    change: (data) => (typeof data === 'string' ? data.replace('"protocol":1', '"protocol":2') : data),
  });
  assert.deepEqual(
    (await run(newer)).map(({ trouble }) => trouble),
    ['version', 'version'],
  );
  const large = wires({
    change: (data) =>
      typeof data === 'string' ? data.replace('"bytes":300000', '"bytes":2000000000') : data,
  });
  assert.deepEqual(
    (await run(large)).map(({ trouble }) => trouble),
    ['too large', 'too large'],
  );
  const noise = wires({ change: (data) => (typeof data === 'string' ? `?${data}` : data) });
  assert.deepEqual(
    (await run(noise)).map(({ trouble }) => trouble),
    ['version', 'version'],
  );
  assert.deepEqual(sent, []);
});

test('a copy that arrives changed, short or long is refused on both sides', async () => {
  for (const spoil of [
    (chunk: ArrayBuffer) => new Uint8Array(chunk).fill(1).buffer,
    (chunk: ArrayBuffer) => chunk.slice(1),
    (chunk: ArrayBuffer) => new Uint8Array([...new Uint8Array(chunk), 0]).buffer,
    () => null,
  ]) {
    let isDone = false;
    const link = wires({
      change: (data) => {
        if (typeof data === 'string' || isDone) return data;
        isDone = true;
        return spoil(data);
      },
    });
    const outcomes = await run(link, {}, { zip: null, hello: { campaign: null, name: '' } });
    assert.deepEqual(
      outcomes.map(({ trouble, received, isSent }) => [trouble, received, isSent]),
      [
        ['damaged there', null, false],
        ['damaged', null, false],
      ],
    );
  }
});

test('cancelled by a person: said on both sides', async () => {
  const stop = new AbortController();
  const { a, b } = wires();
  let chunks = 0;
  const outcomes = await Promise.all([
    converse(
      a,
      US,
      OURS,
      () => {
        chunks += 1;
        if (chunks === 4) stop.abort();
      },
      stop.signal,
    ),
    converse(b, US, THEIRS, () => undefined, never()),
  ]);
  assert.deepEqual(
    outcomes.map(({ trouble, received }) => [trouble, received]),
    [
      ['cancelled', null],
      ['cancelled there', null],
    ],
  );
});

test('a device that says nothing for half a minute, as with its screen off, is waited for no longer', async (t) => {
  t.mock.timers.enable({ apis: ['setInterval', 'Date'] });
  const { a } = wires();
  const outcome = converse(a, US, OURS, () => undefined, never());
  t.mock.timers.tick(29_000);
  t.mock.timers.tick(6000);
  assert.equal((await outcome).trouble, 'silent');
});
