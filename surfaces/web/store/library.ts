/** The campaigns on this device: begin one, open one from a file, list them, remove one. */
import { newDocument } from '@stillstand/campaign/document';
import { isFine, type Problem, problem } from '@stillstand/campaign/problems';
import { fill, reader } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import * as database from './database.ts';
import { deviceWords } from './device-words.ts';
import { forgetDrafts } from './drafts.ts';
import { campaignName, packageId } from './name.ts';
import type { Unpacked } from './unpack.worker.ts';

export type { CampaignRecord } from './database.ts';

/** Larger archives are refused unread: what they unpack to could not be held. */
const MOST_BYTES = 2 ** 30;

export const campaigns = async (): Promise<database.CampaignRecord[]> =>
  (await database.listCampaigns()).sort((a, b) => b.opened_ms - a.opened_ms);

/** An empty campaign of that name; resolves with its id. */
export async function beginCampaign(name: string): Promise<string> {
  const document = newDocument(name, crypto.randomUUID());
  const doc = new Y.Doc();
  fill(doc, document);
  return await keep({ document, read_only: false, problems: [], update: Y.encodeStateAsUpdate(doc) });
}

/** A campaign as it came in a file, read and not kept. */
export interface Arrived {
  file: Blob;
  unpacked: Unpacked;
}

type Refused = { ok: false; problems: Problem[] };

/**
 * Reads a zipped campaign; nothing is kept of it. Whatever is wrong is named; where it is no campaign at all it is
 * refused. Never rejects.
 */
export async function readCampaign(file: Blob): Promise<{ ok: true; arrived: Arrived } | Refused> {
  if (file.size > MOST_BYTES) return { ok: false, problems: [tooLarge(file.size)] };
  let unpacked: Unpacked;
  try {
    unpacked = await unpack(file);
  } catch (error) {
    return { ok: false, problems: [unreadable(error)] };
  }
  const { problems } = unpacked;
  // Half a campaign would look like a whole one.
  if (problems.some(({ code }) => code === 'too-large')) return { ok: false, problems };
  if (unpacked.document.tables.size === 0) {
    return { ok: false, problems: isFine(problems) ? [...problems, noTable()] : problems };
  }
  return { ok: true, arrived: { file, unpacked } };
}

/** Puts it on the device as a campaign of its own; where the device refuses it, nothing is kept. Never rejects. */
export async function keepCampaign({ unpacked }: Arrived): Promise<{ ok: true; id: string } | Refused> {
  try {
    return { ok: true, id: await keep(unpacked) };
  } catch (error) {
    return { ok: false, problems: [notKept(error, unpacked.document)] };
  }
}

/** Campaigns of this device of which it is a copy, the one opened last first. */
export async function copiesHere({ unpacked }: Arrived): Promise<database.CampaignRecord[]> {
  const id = packageId(unpacked.document);
  if (id === null) return [];
  const all = await campaigns();
  const ids = await Promise.all(all.map(idOf));
  return all.filter((_, i) => ids[i] === id);
}

/** What builds did not note until now is looked up once. */
async function idOf({ id, package_id }: database.CampaignRecord): Promise<string | null> {
  if (package_id !== undefined) return package_id;
  const kept = await database.thisDevice.readUpdates(id, 0);
  if (kept === null) return null;
  const doc = new Y.Doc();
  for (const update of kept.updates) Y.applyUpdate(doc, update);
  const found = packageId(reader(doc).document());
  doc.destroy();
  await database.thisDevice.changeRecord(id, { package_id: found }).catch(() => undefined);
  return found;
}

export const takeAway = async (id: string): Promise<void> => {
  await database.removeCampaign(id);
  forgetDrafts(id);
};

async function keep({ document, read_only, problems, update }: Omit<Unpacked, 'written'>): Promise<string> {
  const id = Array.from(crypto.getRandomValues(new Uint8Array(6)), (b) =>
    b.toString(16).padStart(2, '0'),
  ).join('');
  const now = Date.now();
  await database.addCampaign(
    {
      id,
      name: campaignName(document),
      read_only,
      problems,
      opened_ms: now,
      exported_ms: null,
      changes_since_export: 0,
      package_id: packageId(document),
    },
    update,
    new Map([...document.files].map(([path, bytes]) => [path, new Blob([bytes as Uint8Array<ArrayBuffer>])])),
  );
  return id;
}

/** Unpacks and reads in a worker of its own, which ends with it: a hostile archive cannot hold up the page. */
function unpack(zip: Blob): Promise<Unpacked> {
  const worker = new Worker(new URL('./unpack.worker.ts', import.meta.url), { type: 'module' });
  return new Promise<Unpacked>((resolve, reject) => {
    worker.onmessage = (event: MessageEvent<Unpacked | { failure: string }>) => {
      if ('failure' in event.data) reject(new Error(event.data.failure));
      else resolve(event.data);
    };
    // A worker that cannot even be loaded says nothing.
    worker.onerror = (event) => reject(new Error(event.message || 'a part of the app that does not load'));
    worker.postMessage(zip);
  }).finally(() => worker.terminate());
}

function notKept(error: unknown, { files }: Unpacked['document']): Problem {
  const bytes = [...files.values()].reduce((sum, file) => sum + file.length, 0);
  return problem({
    severity: 'error',
    code: 'device-refused',
    table: 'datapackage',
    found: deviceWords(error),
    expected: `room for the campaign${bytes < 2 ** 20 ? '' : ` and its photos, ${Math.ceil(bytes / 2 ** 20)} MiB`}`,
    fix: 'Free up storage on this device, or remove a campaign that has a saved copy, then open the file again. Nothing of it was kept.',
  });
}

const tooLarge = (bytes: number): Problem =>
  problem({
    severity: 'error',
    code: 'too-large',
    table: 'datapackage',
    found: `${Math.round(bytes / 2 ** 20)} MiB`,
    expected: `at most ${MOST_BYTES / 2 ** 20} MiB`,
    fix: 'Take photos out of the archive, or compute the campaign as a folder with the command line. Nothing was changed.',
  });

const unreadable = (error: unknown): Problem =>
  problem({
    severity: 'error',
    code: 'unreadable-file',
    table: 'datapackage',
    found: error instanceof Error ? error.message : String(error),
    expected: 'a zipped campaign',
    fix: 'Check that the file is still where it was, and whole. Nothing was changed.',
  });

const noTable = (): Problem =>
  problem({
    severity: 'error',
    code: 'no-campaign',
    table: 'datapackage',
    found: 'an archive without a table that can be read',
    expected: 'a campaign saved as a zip: datapackage.json and tables (CSV)',
    fix: 'Check that this is the right file. Nothing was changed.',
  });
