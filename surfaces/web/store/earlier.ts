/**
 * An earlier state of a campaign, opened like a campaign of its own that nobody writes: it is made of the acts, lies in
 * memory only, and has the photos of the campaign.
 */
import { rowIds } from '@stillstand/campaign/document';
import { type Act, fill } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { thisDevice } from './database.ts';
import { openStore } from './open.ts';
import { openedStore } from './opened.ts';
import type { Store } from './store.ts';
import type { Surroundings } from './surroundings.ts';

/** Between a campaign and an act in an identity; neither has one. */
const AT = '@';
/** In place of an act: before the first. */
const START = 'start';

/** The act an address names; undefined where it names none there is. */
export const actCalled = (acts: readonly Act[], id: string): Act | null | undefined =>
  id === START ? null : acts.find((act) => act.id === id);

/** An act as an address names it. */
export const actName = (act: Act | null): string => act?.id ?? START;

/** The identity under which an earlier state is opened. */
export const earlierId = (campaign: string, act: Act | null): string => campaign + AT + actName(act);

/** Opens a campaign of this device, or an earlier state of one; null where there is none of that identity. */
export async function openAny(id: string): Promise<Store | null> {
  const [campaign = '', at] = id.split(AT);
  if (at === undefined) return openStore(id);
  const now = await openStore(campaign);
  if (now === null) return null;
  try {
    return earlierOf(now, at);
  } finally {
    await now.close();
  }
}

function earlierOf(now: Store, at: string): Store | null {
  const acts = now.acts();
  const act = actCalled(acts, at);
  if (act === undefined) return null;
  const doc = new Y.Doc();
  const document = now.documentAfter(act?.id ?? null);
  fill(doc, document, rowIds(document));
  const earlier = { campaign: now.id, act, later: acts.length - (act === null ? 0 : acts.indexOf(act) + 1) };
  const record = {
    id: earlierId(now.id, act),
    name: now.name(),
    read_only: true,
    problems: [...now.openingProblems],
    opened_ms: 0,
    exported_ms: null,
    changes_since_export: 0,
  };
  return openedStore(
    doc,
    record,
    0,
    { device: readingFrom(now.id), channel: NOBODY, watchPage: alone },
    earlier,
  );
}

const notWritten = async (): Promise<never> => {
  throw new Error('an earlier state of a campaign is not written');
};

/** Files of the campaign, and nothing is kept. */
const readingFrom = (campaign: string): Surroundings['device'] => ({
  changeRecord: async () => undefined,
  readUpdates: async () => null,
  keepUpdate: notWritten,
  mergeUpdates: async () => undefined,
  addFile: notWritten,
  readFile: (_, path) => thisDevice.readFile(campaign, path),
  filePaths: () => thisDevice.filePaths(campaign),
  fileSizes: () => thisDevice.fileSizes(campaign),
  keepMerge: notWritten,
  readMerge: async () => null,
  forgetMerge: async () => undefined,
  putBack: notWritten,
});

const NOBODY = { postMessage: () => undefined, close: () => undefined, addEventListener: () => undefined };
const alone = () => () => undefined;
