/** Holds a copy against the campaign here, and makes the merge one change: nothing of it blocks the page. */
import { rowIds } from '@stillstand/campaign/document';
import { replicaOf } from '@stillstand/campaign/history';
import { type MergeSide, mergedUpdate, planMerge } from '@stillstand/campaign/merge';
import { openZip } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { writerFor } from '../../store/index.ts';
import type { Answered, Asked } from './protocol.ts';

let theirs: MergeSide | null = null;
/** Photos and other files of the copy. */
let files: ReadonlyMap<string, Uint8Array> = new Map();

const answer = (message: Answered): void => self.postMessage(message);

self.onmessage = async ({ data }: MessageEvent<Asked>): Promise<void> => {
  try {
    if (data.kind === 'plan') await read(data.zip);
    const copy = theirs!;
    const ours = { doc: docOf(data.state), files: data.files };
    const plan = planMerge(ours, copy);
    if (data.kind === 'plan') {
      answer({ kind: 'plan', plan });
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
  const { doc, document } = replicaOf(opened, rowIds(opened.document));
  files = document.files;
  theirs = { doc, files: new Map([...files].map(([path, bytes]) => [path, bytes.length])) };
}

function docOf(state: Uint8Array): Y.Doc {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, state);
  return doc;
}
