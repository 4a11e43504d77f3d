/** Holds a copy against the campaign here, and makes the merge one change: nothing of it blocks the page. */
import { problemWords, rowIds } from '@stillstand/campaign/document';
import { replicaOf } from '@stillstand/campaign/history';
import {
  type MergeNote,
  type MergePlan,
  type MergeSide,
  mergedUpdate,
  planMerge,
} from '@stillstand/campaign/merge';
import { openZip } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { writerFor } from '../../store/index.ts';
import type { Answered, Asked } from './protocol.ts';

let theirs: MergeSide | null = null;
/** Photos and other files of the copy. */
let files: ReadonlyMap<string, Uint8Array> = new Map();
/** What was wrong with the history of the copy: without it copies are merged by their rows. */
let notes: readonly MergeNote[] = [];
let planned: { state: Uint8Array; plan: MergePlan } | null = null;

const answer = (message: Answered): void => self.postMessage(message);

self.onmessage = async ({ data }: MessageEvent<Asked>): Promise<void> => {
  try {
    if (data.kind === 'plan') await read(data.zip);
    const copy = theirs!;
    const ours = { doc: docOf(data.state), files: data.files };
    // Planned again only where the campaign has changed since it was looked at.
    if (planned === null || data.kind === 'plan' || !isEqual(planned.state, data.state)) {
      planned = { state: data.state, plan: planMerge(ours, copy) };
    }
    const { plan } = planned;
    if (data.kind === 'plan') {
      answer({ kind: 'plan', plan: { ...plan, notes: [...notes, ...plan.notes] } });
      return;
    }
    const update = mergedUpdate(ours, copy, data.decisions, writerFor(data.crew));
    const come = new Map(plan.files.come.map((path) => [path, files.get(path)!]));
    answer({ kind: 'merged', update, files: come, plan });
  } catch (error) {
    answer({ kind: 'failed', why: error instanceof Error ? error.message : String(error) });
  }
};

async function read(zip: Blob): Promise<void> {
  const opened = openZip(new Uint8Array(await zip.arrayBuffer()));
  const { doc, document, problems } = replicaOf(opened, rowIds(opened.document));
  notes = problems.map((each) => {
    const { place, found, fix } = problemWords(each, () => []);
    return { words: `${place}: ${found}. ${fix}` };
  });
  files = document.files;
  theirs = { doc, files: new Map([...files].map(([path, bytes]) => [path, bytes.length])) };
}

const isEqual = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, i) => byte === b[i]);

function docOf(state: Uint8Array): Y.Doc {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, state);
  return doc;
}
