/** The list of acts does not grow for ever: past a bound the oldest leave it, and the campaign stays what it is. */
import { actsOf, listOf } from '@stillstand/campaign/replica';
import type * as Y from 'yjs';

/** Acts that are kept: some two seasons of 10,000 readings. */
export const MOST_ACTS = 20_000;

/**
 * Takes the oldest acts out of the list beyond `most`, as a change like any other: copies that each trim meet with one list.
 * Acts of an open conflict stay, however old: a person is to decide between them.
 */
export function trimActs(doc: Y.Doc, most = MOST_ACTS): void {
  const list = listOf(doc);
  if (list.length <= most) return;
  const acts = actsOf(doc, true);
  const open = new Set(acts.conflicts().flatMap(({ between }) => between.map(({ act }) => act.id)));
  const old = acts.all().slice(0, list.length - most);
  doc.transact(() => {
    // From the end, so that places stay; neighbours go at once.
    for (let i = old.length - 1, run = 0; i >= 0; i--) {
      run = open.has(old[i]!.id) ? 0 : run + 1;
      const isEnd = i === 0 || open.has(old[i - 1]!.id);
      if (run > 0 && isEnd) list.delete(i, run);
    }
  });
}
