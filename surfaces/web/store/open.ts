/** Opens a campaign that this device keeps: reads it, migrates it to today's version, hands it on as an open one. */
import { isKnownLayout, migrated } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { packageId } from './name.ts';
import { ELSEWHERE, openedStore } from './opened.ts';
import type { Store } from './store.ts';
import { type Surroundings, surroundingsOf } from './surroundings.ts';
import { unwritten } from './unwritten.ts';

/** So many changes are kept one by one before they are written as one. */
const MERGE_BEYOND = 300;

/**
 * Opens a campaign of this device; null where there is none of that id. Rejects where a newer Stillstand keeps it in a
 * way this one does not know, and where the device does not answer.
 */
export const openStore = (id: string): Promise<Store | null> => openIn(id, () => surroundingsOf(id));

export async function openIn(id: string, surroundings: () => Surroundings): Promise<Store | null> {
  const waiting = unwritten(id);
  if (waiting !== undefined) {
    waiting.reopen();
    return waiting;
  }
  const around = surroundings();
  const { device, channel } = around;
  try {
    // Listening starts before reading, so that no change falls between. Two tabs must not migrate one campaign twice.
    const kept = await alone(`stillstand/${id}`, () => readMigrated(id, around));
    if (kept === null) {
      channel.close();
      return null;
    }
    // Neither is worth a campaign that does not open: a full device refuses both.
    if (kept.count > MERGE_BEYOND) device.mergeUpdates(id, Y.mergeUpdates).catch(() => undefined);
    const store = openedStore(kept.doc, kept.record, kept.last, around);
    const package_id = packageId(store.document());
    await device.changeRecord(id, { opened_ms: Date.now(), package_id }).catch(() => undefined);
    return store;
  } catch (error) {
    channel.close();
    throw error;
  }
}

/** What the device keeps of a campaign, migrated to the version this Stillstand writes; the migrated is kept before it is used. */
async function readMigrated(id: string, { device, channel }: Surroundings) {
  const kept = await device.readUpdates(id, 0);
  if (kept === null) return null;
  const doc = new Y.Doc();
  doc.transact(() => {
    for (const update of kept.updates) Y.applyUpdate(doc, update);
  }, ELSEWHERE);
  if (!isKnownLayout(doc)) throw new Error('a newer Stillstand keeps this campaign: update the app');
  const { record, updates, last } = kept;
  const whole = { doc, record, last, count: updates.length };
  if (record.read_only) return whole;
  const { update, read_only, problems } = migrated(doc);
  if (update !== null) {
    whole.last = await device.keepUpdate(id, update, {
      putBack: record.put_back ?? 0,
      whole: () => Y.encodeStateAsUpdate(doc),
    });
    channel.postMessage('changed');
  }
  if (read_only) whole.record = { ...record, read_only, problems: [...record.problems, ...problems] };
  return whole;
}

/** Runs `work` while no other tab does work of that name. */
const alone = <T>(name: string, work: () => Promise<T>): Promise<T> =>
  // Only a page that is served safely has locks; without them two tabs are not opened in the same second.
  globalThis.navigator?.locks === undefined ? work() : navigator.locks.request(name, work);
