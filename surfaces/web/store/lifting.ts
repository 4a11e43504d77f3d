/**
 * A campaign kept by an older Stillstand is lifted to the version this one writes when it is opened: the lifted content
 * is one more change behind the old ones, so that the old stays until the new is on the device. What a newer one wrote
 * is opened to be read only.
 */
import { rowIds } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { lift } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { overwrite, readDocument, readPackage } from './content.ts';

export interface Lifted {
  /** What it took, to be kept; null where nothing had to change. */
  update: Uint8Array | null;
  read_only: boolean;
  problems: readonly Problem[];
}

/** Lifts the campaign in place. */
export function lifted(doc: Y.Doc): Lifted {
  // Whether anything is to be done stands in the package; the tables of a long campaign take their time.
  const described = { ...readPackage(doc, new Map()), tables: new Map(), files: new Map() };
  const { document, read_only, problems } = lift(described);
  if (document === described) return { update: null, read_only, problems };
  const before = readDocument(doc);
  const { document: after } = lift(before);
  const state = Y.encodeStateVector(doc);
  overwrite(doc, before, after, rowIds(after));
  return { update: Y.encodeStateAsUpdate(doc, state), read_only, problems };
}
