import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { TraceId } from '@stillstand/campaign/results';
import type { Computation, Under } from '../../compute/index.ts';
import type { ShownNumber } from '../../parts/index.ts';
import type { Act } from '../../store/index.ts';
import { arrivals } from './changed-numbers.ts';

const edit = (id: string, by: string, row_id: string): Act => ({
  id,
  time: '2026-03-04T15:40:00+01:00',
  by,
  device: `tablet ${id}`,
  how: 'done',
  changes: [
    { kind: 'edit', table: 'runs', row_id, cells: { start_mark: { before: '', after: '', known: [] } } },
  ],
});

/** A page with two numbers; rows under a number carry its name. */
function page() {
  let acts: readonly Act[] = [];
  let arrived: ReadonlySet<string> = new Set();
  let state: Computation['state'] = 'final';
  let tellStore = (): void => undefined;
  let tellComputed = (): void => undefined;
  const texts = new Map<ShownNumber, string>();
  const moved = new Map<string, boolean>();
  const under: Computation['under'] = async (asked) =>
    asked.ids.map((id): Under => {
      const place = asked.theirs.findLastIndex((row) => row.startsWith(id));
      return {
        theirs: place,
        own: asked.own.some((row) => row.startsWith(id)),
        moved: moved.get(id) ?? true,
      };
    });
  const marked = arrivals(
    {
      acts: () => acts,
      arrived: () => arrived,
      cellsOf: () => ({ run: 'R13', hole: 'T2' }),
      subscribe: (listener) => {
        tellStore = listener;
        return () => undefined;
      },
    },
    {
      now: () => ({ state, under }) as Computation,
      subscribe: (listener) => {
        tellComputed = listener;
        return () => undefined;
      },
    },
    {
      crew: () => ({ by: 'recorder', device: 'tablet own' }),
      afterDrawn: (work) => work(),
      textOf: (number) => texts.get(number) ?? '',
    },
  );
  const number = (id: string, text: string): ShownNumber => {
    const shown = { id: id as TraceId, element: null };
    texts.set(shown, text);
    marked.watch(shown);
    return shown;
  };
  const act = (done: Act, isTheirs: boolean): void => {
    if (isTheirs) arrived = new Set([...arrived, done.id]);
    acts = [...acts, done];
    state = 'computing';
    tellStore();
  };
  return {
    marked,
    number,
    a: number('a', '4.12 m'),
    b: number('b', '1.00 m'),
    moved,
    texts,
    theirs: (id: string, row: string) => act(edit(id, 'driller', row), true),
    own: (id: string, row: string) => act(edit(id, 'recorder', row), false),
    computed: async (as: Computation['state'] = 'final') => {
      state = as;
      tellComputed();
      await new Promise((resolve) => setImmediate(resolve));
    },
  };
}

test('a number moved by another’s edit is marked with what it was, who, when and which row', async () => {
  const { marked, a, b, texts, theirs, computed } = page();
  theirs('B', 'a row');
  texts.set(a, '4.31 m');
  await computed();
  assert.deepEqual(marked.of(a)?.was, '4.12 m');
  assert.equal(marked.of(a)?.until, 'driller, tablet B, 15:40: edit run R13 of T2 (cable mark at the start)');
  assert.equal(marked.of(b), null);
  assert.deepEqual(marked.news(), { numbers: [a], writers: 'driller, tablet B' });
  // Another edit before it was looked at: it was what it was when it was last looked at.
  theirs('C', 'a row');
  texts.set(a, '4.40 m');
  await computed();
  assert.equal(marked.of(a)?.was, '4.12 m');
  assert.match(marked.of(a)?.until ?? '', /tablet C/);
  marked.look(a);
  assert.equal(marked.of(a), null);
  assert.equal(marked.looked('a' as TraceId)?.was, '4.12 m');
  assert.equal(marked.news(), null);
});

test('no false alarm: rounded otherwise, drifted by itself, or edited here at the same time', async () => {
  const { marked, a, b, moved, texts, theirs, own, computed } = page();
  theirs('B', 'a row');
  texts.set(a, '4.13 m');
  texts.set(b, '1.01 m');
  moved.set('a', false).set('b', false);
  await computed();
  assert.equal(marked.news(), null);
  moved.clear();
  own('own', 'a other row');
  theirs('C', 'a row');
  texts.set(a, '5.00 m');
  await computed();
  assert.equal(marked.of(a), null);
});

test('the next own act clears the marks; dismissing them does too', async () => {
  const { marked, a, texts, theirs, own, computed } = page();
  theirs('B', 'a row');
  texts.set(a, '4.31 m');
  await computed();
  own('own', 'elsewhere');
  assert.equal(marked.of(a), null);
  await computed();
  theirs('C', 'a row');
  texts.set(a, '4.50 m');
  await computed('provisional');
  assert.equal(marked.of(a)?.was, '4.31 m');
  marked.dismiss();
  assert.deepEqual([marked.of(a), marked.news()], [null, null]);
});

test('what is under no number, as a setting, is named where nothing else can have moved it', async () => {
  const { marked, b, texts, theirs, computed } = page();
  theirs('B', 'setting');
  texts.set(b, '1.20 m');
  await computed();
  assert.match(marked.of(b)?.until ?? '', /^driller, tablet B/);
});

test('a number of the rig keeps its place while it is named after the next reading; another hole does not', async () => {
  const { marked, number, texts, theirs, computed } = page();
  const here = number('hole:T2/string@4', '9.80');
  const there = number('hole:T2/string@4', '7.10');
  theirs('B', 'hole:T2/string@5 reading');
  here.id = 'hole:T2/string@5' as TraceId;
  there.id = 'hole:T3/string@5' as TraceId;
  texts.set(here, '9.92');
  texts.set(there, '7.11');
  await computed('provisional');
  assert.equal(marked.of(here)?.was, '9.80');
  assert.equal(marked.of(there), null);
});
