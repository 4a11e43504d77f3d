/** Computes the campaign it is told of, by the same steps as the command line, and answers where numbers come from. */
import {
  type Campaign,
  type CampaignDocument,
  type DocumentTable,
  parseCampaign,
} from '@stillstand/campaign/document';
import type { Results, TraceNode } from '@stillstand/campaign/results';
import {
  type Computation,
  type ComputeOptions,
  computeCampaign,
  type Published,
} from '@stillstand/campaign/steps';
import { CURVES, type CurveName, loadCurve } from '@stillstand/published/curves';
import { intervalRate } from '@stillstand/science/curve';
import { forgettingMemo } from './memo.ts';
import { difference, patched } from './patch.ts';
import type { Answered, Asked } from './protocol.ts';

/** Enough to see which way a curve moves; see docs/methods/curve.md for what the whole one takes. */
const FIRST_LOOK = { chains: 1, draws: 100, warm_up: 200 };
/** Nodes one question may bring: a screen shows no more. */
const MOST_NODES = 4000;

const STALE = Symbol('a newer edit has come');

const { memo, turn } = forgettingMemo(6);
let tables: Record<string, DocumentTable> = {};
/** As the page has them. */
let sentCampaign: Campaign | null = null;
let sentResults: Results | null = null;
let last: Computation | null = null;
let work: Promise<void> = Promise.resolve();

const answer = (message: Answered): void => self.postMessage(message);

self.onmessage = (event: MessageEvent<Asked>): void => {
  const asked = event.data;
  if (asked.kind === 'trace') {
    // After whatever is being computed, so that the answer is of the newest numbers.
    work = work.then(() => answer({ kind: 'trace', question: asked.question, nodes: below(asked.id) }));
    return;
  }
  tables = patched(tables, asked.tables) as typeof tables;
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
    tables: new Map(Object.entries(tables)),
    files: new Map(),
    source: null,
  };
  const { campaign, problems } = parseCampaign(document);
  if (asked.curve === 'none') {
    answer({ kind: 'parsed', edit, campaign: difference(sentCampaign, campaign) });
    sentCampaign = campaign;
  }
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
    last = computation;
    answer({ kind: 'results', edit, stage, results: difference(sentResults, computation.results) });
    sentResults = computation.results;
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
  if (last === null) return [];
  const { trace } = last;
  const start = trace.find(id);
  if (start === -1) return belowChosen(id);
  const found = new Set([start]);
  for (const index of found) {
    if (found.size >= MOST_NODES) break;
    for (const part of trace.parts(index)) found.add(part);
  }
  return [...found].map((index) => trace.node(index));
}

/** A rate over an interval that was chosen on the screen and is not reported: made of the levels at its two ends. */
function belowChosen(id: string): TraceNode[] {
  const ends = /^interval:(-?[\d.]+)-(-?[\d.]+)$/.exec(id);
  const curve = last?.results.curve ?? null;
  if (ends === null || curve === null) return [];
  const [older, younger] = [Number(ends[1]), Number(ends[2])];
  const rate = intervalRate(curve, older, younger)?.rate_mm_yr;
  if (rate === undefined) return [];
  const parts = [`level:${younger}`, `level:${older}`];
  const top: TraceNode = {
    id,
    label: `Rate from ${older} to ${younger} cal BP`,
    how: 'level at the younger end − level at the older end, over the years between',
    value: rate.mean,
    sigma: rate.sd,
    unit: 'mm/yr',
    row: null,
    parts,
  };
  const nodes = new Map(parts.flatMap(below).map((node) => [node.id, node]));
  return [top, ...nodes.values()];
}

const isCurve = (name: string): name is CurveName => Object.hasOwn(CURVES, name);
