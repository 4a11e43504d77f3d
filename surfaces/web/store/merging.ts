/**
 * A copy merged into the open campaign, and the merge taken back as one step: the last of what undo takes back, as long as
 * nothing was written since that is not itself undone. Readings are never undone; a merge before one of them stays.
 */
import { actsOf, type editing, reader } from '@stillstand/campaign/replica';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import { counted } from '@stillstand/output/words';
import * as Y from 'yjs';
import { deviceWords } from './device-words.ts';
import type { Merged } from './merge-records.ts';
import type { Surroundings } from './surroundings.ts';
import type { Writing } from './writing.ts';

/** Tries to take a merge back while other windows go on writing. */
const TRIES = 5;

interface Merging {
  id: string;
  doc: Y.Doc;
  /** What undo named when the campaign was opened. */
  words: string | null;
  edits: ReturnType<typeof editing>;
  waits: Writing;
  device: Surroundings['device'];
  /** Takes in what the device has had since; resolves with the number of the last change. */
  caughtUp(): Promise<number>;
  /** The document has a merge that is kept. */
  apply(update: Uint8Array): void;
  /** The device has the campaign as it was before. */
  isBack(words: string): void;
}

export function merging({ id, doc, words, edits, waits, device, caughtUp, apply, isBack }: Merging) {
  /** What was done in this window before, which undo comes to only where the merge is not taken back. */
  let stepsBefore = 0;
  const demandSaved = async (): Promise<void> => {
    await waits.now();
    if (waits.failure !== null) throw new Error(waits.failure);
  };

  const merge = async (merged: Merged): Promise<void> => {
    await demandSaved();
    await device.keepMerge(id, merged);
    words = merged.words;
    stepsBefore = edits.steps();
    apply(merged.update);
  };

  /** Why the merge cannot be taken back; null where it can. */
  async function whyMerged(): Promise<string | null> {
    const kept = await device.readMerge(id);
    if (kept === null) return 'What was before it is not kept any more.';
    const then = new Y.Doc();
    then.transact(() => {
      Y.applyUpdate(then, kept.before);
      Y.applyUpdate(then, kept.merged);
    });
    try {
      if (rowsOf(then) === rowsOf(doc)) return null;
      const known = new Set(
        actsOf(then)
          .all()
          .map((act) => act.id),
      );
      const changes = actsOf(doc)
        .all()
        .filter((act) => !known.has(act.id))
        .flatMap((act) => act.changes);
      const readings = changes.filter(({ kind, table }) => kind === 'add' && schemas[table].readings);
      if (readings.length === 0) return 'Rows were edited since the merge: undo or restore those first.';
      await device.forgetMerge(id);
      words = null;
      return `${counted(readings.length, 'reading was', 'readings were')} recorded since the merge. Readings are never undone.`;
    } finally {
      then.destroy();
    }
  }

  const takeBack = async (called: string): Promise<string> => {
    for (let tries = 0; tries < TRIES; tries++) {
      await demandSaved();
      const last = await caughtUp();
      const why = await whyMerged();
      if (why !== null) return why;
      if (await device.putBack(id, last)) {
        words = null;
        isBack(`Undone: ${called}.`);
        return '';
      }
    }
    return 'The campaign is being changed in another window: try again.';
  };

  return {
    merge,
    /** What undo takes back next, where that is a merge. */
    undoes: (): string | null => (edits.steps() > stepsBefore ? null : words),
    undo: (called: string): void => {
      void takeBack(called)
        .catch((error: unknown) => `${deviceWords(error)}.`)
        .then((why) => {
          if (why !== '') edits.say(`Not undone: ${called}. ${why}`, true);
        });
    },
  };
}

/** All that the rows of a campaign say. An edit that was undone leaves nothing of itself here. */
function rowsOf(doc: Y.Doc): string {
  const { read } = reader(doc);
  return JSON.stringify(
    (Object.keys(schemas) as TableName[]).map((table) =>
      (read(table)?.rows ?? []).map(({ row_id, cells }) => [
        row_id,
        Object.entries(cells)
          .filter(([, cell]) => cell !== '')
          .sort(([a], [b]) => (a < b ? -1 : 1)),
      ]),
    ),
  );
}
