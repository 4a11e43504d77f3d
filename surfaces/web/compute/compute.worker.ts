/** Computes the campaign it is told of, by the same steps as the command line, and answers where numbers come from. */
import { type CampaignDocument, type DocumentTable, parseCampaign } from '@stillstand/campaign/document';
import type { TraceNode } from '@stillstand/campaign/results';
import { type ComputeOptions, computeCampaign, type Published, type Trace } from '@stillstand/campaign/steps';
import { CURVES, type CurveName, loadCurve } from '@stillstand/published/curves';
import { forgettingMemo } from './memo.ts';
import type { Answered, Asked } from './protocol.ts';

/** Enough to see which way a curve moves; see docs/methods/curve.md for what the whole one takes. */
const FIRST_LOOK = { chains: 1, draws: 100, warm_up: 200 };
/** Nodes one question may bring: a screen shows no more. */
const MOST_NODES = 4000;

const STALE = Symbol('a newer edit has come');

const { memo, turn } = forgettingMemo(6);
const tables = new Map<string, DocumentTable>();
let trace: Trace | null = null;
let work: Promise<void> = Promise.resolve();

const answer = (message: Answered): void => self.postMessage(message);

self.onmessage = (event: MessageEvent<Asked>): void => {
  const asked = event.data;
  if (asked.kind === 'trace') {
    // After whatever is being computed, so that the answer is of the newest numbers.
    work = work.then(() => answer({ kind: 'trace', question: asked.question, nodes: below(asked.id) }));
    return;
  }
  for (const [name, table] of asked.changed) {
    if (table === null) tables.delete(name);
    else tables.set(name, table);
  }
  work = work
    .then(() => compute(asked))
    .catch((error: unknown) => {
      if (error === STALE) answer({ kind: 'stale', edit: asked.edit });
      else
        setTimeout(() => {
          throw error;
        });
    });
};

async function compute(asked: Asked & { kind: 'document' }): Promise<void> {
  const { edit } = asked;
  const latest = asked.latest === null ? null : new Int32Array(asked.latest);
  const giveUpIfStale = (): void => {
    if (latest !== null && Atomics.load(latest, 0) !== edit) throw STALE;
  };
  giveUpIfStale();
  const document: CampaignDocument = {
    package: asked.package,
    tables: new Map(tables),
    files: new Map(),
    source: null,
  };
  const { campaign, problems } = parseCampaign(document);
  if (asked.curve === 'none')
    answer({ kind: 'parsed', edit, campaign, problems: [...asked.found, ...problems] });
  const published: Published = { curves: {} };
  for (const { calibration_curve: name } of campaign.rows.determinations) {
    if (name !== null && isCurve(name)) published.curves[name] ??= await loadCurve(name);
  }
  const run = (options: ComputeOptions, stage: (Answered & { kind: 'results' })['stage']): void => {
    giveUpIfStale();
    const computation = computeCampaign(campaign, published, [...asked.found, ...problems], {
      ...options,
      memo,
    });
    trace = computation.trace;
    answer({ kind: 'results', edit, stage, results: computation.results });
  };
  if (asked.curve === 'none') run({ withCurve: false }, 'without curve');
  else {
    run({ withCurve: true, firstLook: FIRST_LOOK, onProgress: giveUpIfStale }, 'first look');
    run(
      {
        withCurve: true,
        onProgress: (done, of) => {
          giveUpIfStale();
          answer({ kind: 'progress', edit, done, of });
        },
      },
      'whole',
    );
  }
  turn();
}

/** A number and all it was made of, each once, the nearest first. */
function below(id: string): TraceNode[] {
  if (trace === null) return [];
  const start = trace.find(id);
  if (start === -1) return [];
  const found = new Set([start]);
  for (const index of found) {
    if (found.size >= MOST_NODES) break;
    for (const part of trace.parts(index)) found.add(part);
  }
  return [...found].map((index) => trace!.node(index));
}

const isCurve = (name: string): name is CurveName => Object.hasOwn(CURVES, name);
