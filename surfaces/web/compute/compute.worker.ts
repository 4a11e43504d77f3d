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
import { isCurveName, loadCurve } from '@stillstand/published/curves';
import { type CurveState, intervalRate, type Look, lookAtCurve } from '@stillstand/science/curve';
import { forgettingMemo } from './memo.ts';
import { difference, patched } from './patch.ts';
import type { Answered, Asked, Stage } from './protocol.ts';

/**
 * Sweeps of the looks at a curve: the first of all starts from nothing; after an edit one goes on from where the last
 * stood, and then a better one. Enough to see which way a curve moves; docs/methods/curve.md says what they are worth.
 */
const COLD: Look = { chains: 1, warm_up: 200, draws: 100 };
const FIRST: Look = { chains: 4, warm_up: 12, draws: 20 };
const BETTER: Look = { chains: 4, warm_up: 0, draws: 120 };
/** The page draws a first look meanwhile, with all the machine has. */
const DRAWN_MS = 40;
/** Between words on progress, ms: each has the page draw a number anew. */
const TOLD_EVERY_MS = 200;
// biome-ignore lint/plugin: says how far the computation is, and nothing of what it gives
const now_ms = (): number => performance.now();
/** Nodes one question may bring: a screen shows no more. */
const MOST_NODES = 4000;

const STALE = Symbol('a newer edit has come');

const { memo, turn } = forgettingMemo(6);
let tables: Record<string, DocumentTable> = {};
/** As last parsed: rows that did not change stay the very same. */
let parsed: Campaign | null = null;
/** As the page has them. */
let sentCampaign: Campaign | null = null;
let sentResults: Results | null = null;
let last: Computation | null = null;
/** Where the chains of the last look stand. */
let stood: CurveState | null = null;
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
      // Outside the promise, where the page hears of it.
      if (error !== STALE)
        setTimeout(() => {
          throw error;
        });
    })
    .then(() => answer({ kind: 'done', edit: asked.edit }));
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
  const { campaign: read, problems } = parseCampaign(document);
  const campaign = patched(parsed, difference(parsed, read)) as Campaign;
  parsed = campaign;
  const published: Published = { curves: {} };
  for (const { calibration_curve: name } of campaign.rows.determinations) {
    if (name !== null && isCurveName(name)) published.curves[name] ??= await loadCurve(name);
  }
  const run = (options: ComputeOptions, stage: Stage): void => {
    giveUpIfStale();
    const computation = computeCampaign(campaign, published, [...asked.found, ...problems], {
      ...options,
      memo,
    });
    last = computation;
    answer({
      kind: 'results',
      edit,
      stage,
      // One of the workers tells the page.
      campaign: asked.curve === 'whole' ? { kind: 'same' } : difference(sentCampaign, campaign),
      results: difference(sentResults, computation.results),
    });
    sentCampaign = campaign;
    sentResults = computation.results;
  };
  const look = (name: string, sweeps: Look): ComputeOptions => ({
    withCurve: true,
    look: {
      name,
      curve: (points, settings) => {
        const seen = lookAtCurve(points, settings, sweeps, stood, giveUpIfStale);
        stood = seen.state;
        return seen.curve;
      },
    },
  });
  if (asked.curve === 'whole') {
    let told = now_ms();
    const onProgress = (done: number, of: number): void => {
      giveUpIfStale();
      if (now_ms() - told < TOLD_EVERY_MS) return;
      told = now_ms();
      answer({ kind: 'progress', edit, done, of });
    };
    run({ withCurve: true, onProgress }, 'whole');
  } else {
    // A first curve of all is worth waiting for, but not by the rest.
    if (asked.curve === 'none' || stood === null) run({ withCurve: false }, 'without curve');
    if (asked.curve === 'looks') {
      run(look('first', stood === null ? COLD : FIRST), 'a look');
      // Without shared memory a better one could not be given up, and the next edit would wait for it.
      if (latest !== null) {
        await new Promise((resolve) => setTimeout(resolve, DRAWN_MS));
        run(look('better', BETTER), 'a look');
      }
    }
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
