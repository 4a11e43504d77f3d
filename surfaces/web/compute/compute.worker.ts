/**
 * The worker of the campaign: it alone parses the document, takes it through the same steps as the command line, and
 * answers where numbers come from. Long steps are done by two of `long.worker.ts`, so that it answers at once.
 */
import {
  type Campaign,
  type CampaignDocument,
  type DocumentTable,
  parseCampaign,
} from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import {
  curveOf,
  type Results,
  seenFrom,
  type TraceId,
  type TraceNode,
  withCurve,
} from '@stillstand/campaign/results';
import {
  type Computation,
  chosenNumber,
  computeCampaign,
  curvesNeeded,
  holesOfAges,
  type LongJob,
  type Published,
} from '@stillstand/campaign/steps';
import { loadCurves } from '@stillstand/published/curves';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';
import {
  type AnsweredQuestion,
  answerTo,
  type CurvePreview,
  type CurveResult,
  type CurveState,
  type NoAnswer,
  previewCurve,
  type Question,
} from '@stillstand/science/curve';
import { canShare } from './can-share.ts';
import { type LongSteps, longSteps, type Thread } from './long-steps.ts';
import { forgettingMemo } from './memo.ts';
import { difference, patched } from './patch.ts';
import type { AgesProgress, Answered, Asked, Stage } from './protocol.ts';
import { underNumbers } from './under.ts';

/**
 * Sweeps of the looks at a curve: the first of all starts from nothing; after an edit one goes on from where the last
 * stood, and then a better one. Enough to see which way a curve moves; docs/methods/curve.md says what they are worth.
 */
const COLD: CurvePreview = { chains: 1, warm_up: 200, draws: 100 };
const FIRST: CurvePreview = { chains: 4, warm_up: 12, draws: 20 };
const BETTER: CurvePreview = { chains: 4, warm_up: 0, draws: 120 };
/** The page draws a first look meanwhile, with all the machine has. */
const DRAWN_MS = 40;
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
/** As it was before the last changes of others came. */
let before: Computation | null = null;
/** The last look: of what, how good, and where its chains are. */
let looked: { key: string; isBetter: boolean; curve: CurveResult; state: CurveState } | null = null;
/** The computation that waits for its long steps, the keys of those, and the look at its curve that was told. */
let waiting: { edit: Edit; keys: Set<string>; look: CurveResult | null } | null = null;
let work: Promise<void> = Promise.resolve();

const answer = (message: Answered): void => self.postMessage(message);

/** How far curves and ages are. */
let soFar: { share: number | null; ages: AgesProgress | null } = { share: null, ages: null };

function sayHowFar(changed: Partial<typeof soFar>): void {
  if (waiting === null) return;
  soFar = { ...soFar, ...changed };
  answer({ kind: 'progress', edit: waiting.edit.asked.edit, ...soFar });
}

/** A worker for the curves and one for the ages of holes, which do not wait for those. */
const [curves, ages] = (['curves', 'ages'] as const).map((of) =>
  longSteps(
    () => new Worker(new URL('./long.worker.ts', import.meta.url), { type: 'module' }) as Thread,
    canShare(),
    {
      done: (job, value, isLast) => {
        memo.set(job.key, value);
        waiting?.keys.delete(job.key);
        if (of === 'ages') sayHowFar({ ages: null });
        else if (isLast) sayHowFar({ share: null });
        if (waiting?.keys.size === 0) inTurn(finish);
        else if (of === 'ages') inTurn(tellAges);
      },
      progress: (share, job, ofJob) => {
        const holes = holesOfAges(job);
        sayHowFar(holes === null ? { share } : { ages: { holes, share: ofJob } });
      },
      failed: (message) => thrown(new Error(message.replace(/^Uncaught (Error: )?/, ''))),
    },
  ),
) as [LongSteps, LongSteps];

/** Those of a computation, by who does them; the ages of a hole that is looked at first. */
function shared(jobs: readonly LongJob[], first: string | null): Record<'curves' | 'ages', LongJob[]> {
  const ofHoles = jobs.filter((job) => holesOfAges(job) !== null);
  const isFirst = (job: LongJob): boolean => first !== null && holesOfAges(job)?.includes(first) === true;
  return {
    curves: jobs.filter((job) => holesOfAges(job) === null),
    ages: [...ofHoles.filter(isFirst), ...ofHoles.filter((job) => !isFirst(job))],
  };
}

self.onmessage = (event: MessageEvent<Asked>): void => {
  const asked = event.data;
  if (asked.kind === 'trace') {
    // After whatever is being computed, so that the answer is of the newest numbers.
    inTurn(() => answer({ kind: 'trace', question: asked.question, nodes: below(asked.id) }));
    return;
  }
  if (asked.kind === 'under') {
    inTurn(() =>
      answer({
        kind: 'under',
        question: asked.question,
        found: underNumbers(asked, before?.trace, last?.trace),
      }),
    );
    return;
  }
  if (asked.kind === 'answer') {
    const { question, to, curve } = asked;
    inTurn(() => answer({ kind: 'answer', question, answer: answered(to, curve) }));
    return;
  }
  tables = patched(tables, asked.tables) as typeof tables;
  inTurn(() => compute(asked));
};

function inTurn(task: () => Promise<void> | void): void {
  work = work.then(task).catch((error: unknown) => {
    if (error !== STALE) thrown(error);
  });
}

/** Outside the promise, where the page hears of it. */
function thrown(error: unknown): void {
  setTimeout(() => {
    throw error;
  });
}

/** A state of the document, read and ready to be computed. */
interface Edit {
  readonly asked: Asked & { kind: 'document' };
  readonly campaign: Campaign;
  readonly published: Published;
  readonly problems: readonly Problem[];
  giveUpIfStale(): void;
}

async function compute(asked: Asked & { kind: 'document' }): Promise<void> {
  waiting = null;
  if (asked.arrived) before = last;
  const edit = await read(asked);
  const later: LongJob[] = [];
  const { results, curveInput } = computed(edit, later);
  const jobs = shared(later, asked.first);
  curves.keepOnly(jobs.curves);
  ages.keepOnly(jobs.ages);
  if (later.length === 0) {
    tell(edit, results, asked.withCurve ? 'whole' : 'without curve');
    turn();
    return;
  }
  // A first curve of all is worth waiting for, but not by the rest.
  if (looked === null || asked.first !== null) tell(edit, results, 'without curve');
  let seen: CurveResult | null = null;
  const look = (sweeps: CurvePreview): void => {
    edit.giveUpIfStale();
    seen = lookAt(curveInput, sweeps, edit.giveUpIfStale);
    tell(edit, withCurve(results, seen), 'a look');
  };
  // Who looks at the ages of a hole waits for no look at the curve.
  if (asked.first === null) {
    look(looked === null ? COLD : FIRST);
    // Without shared memory a better one could not be given up, and the next edit would wait for it.
    if (asked.latest !== null) {
      await new Promise((resolve) => setTimeout(resolve, DRAWN_MS));
      look(BETTER);
    }
  }
  turn();
  // Until the looks are drawn nothing else keeps the machine busy.
  wantDone(edit, seen, later);
}

/** The ages of a hole are there, the curve is not: they are not kept back for it. */
function tellAges(): void {
  if (waiting === null || waiting.keys.size === 0) return;
  const { edit, look } = waiting;
  const { results } = computed(edit, []);
  tellSoFar(edit, results, look);
}

function tellSoFar(edit: Edit, results: Results, look: CurveResult | null): void {
  if (look === null) tell(edit, results, 'without curve');
  else tell(edit, withCurve(results, look), 'a look');
}

/** Once every long step is in the memo; those that waited for the numbers of others come then. */
function finish(): void {
  if (waiting === null || waiting.keys.size > 0) return;
  const { edit, look } = waiting;
  const later: LongJob[] = [];
  const { results } = computed(edit, later);
  if (later.length > 0) {
    tellSoFar(edit, results, look);
    wantDone(edit, look, later);
    return;
  }
  waiting = null;
  tell(edit, results, 'whole');
  turn();
}

function wantDone(edit: Edit, look: CurveResult | null, later: readonly LongJob[]): void {
  const jobs = shared(later, edit.asked.first);
  waiting = { edit, keys: new Set(later.map(({ key }) => key)), look };
  soFar = { share: null, ages: null };
  curves.want(jobs.curves);
  ages.want(jobs.ages);
}

async function read(asked: Edit['asked']): Promise<Edit> {
  const latest = asked.latest === null ? null : new Int32Array(asked.latest);
  const giveUpIfStale = (): void => {
    if (latest !== null && Atomics.load(latest, 0) !== asked.edit) throw STALE;
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
  const published = { curves: await loadCurves(curvesNeeded(campaign)), doseFactors: DOSE_FACTORS };
  return { asked, campaign, published, problems: [...asked.found, ...problems], giveUpIfStale };
}

function computed(
  { asked: { withCurve }, campaign, published, problems, giveUpIfStale }: Edit,
  later?: LongJob[],
): Computation {
  giveUpIfStale();
  last = computeCampaign(campaign, published, problems, { withCurve, memo, later });
  return last;
}

function tell({ asked: { edit }, campaign }: Edit, results: Results, stage: Stage): void {
  answer({
    kind: 'results',
    edit,
    stage,
    campaign: difference(sentCampaign, campaign),
    results: difference(sentResults, results),
  });
  sentCampaign = campaign;
  sentResults = results;
}

/** A provisional curve: no step, for it depends on the looks before it; nothing of it enters the results proper. */
function lookAt(
  input: Computation['curveInput'],
  sweeps: CurvePreview,
  giveUpIfStale: () => void,
): CurveResult | null {
  if (input === null) return null;
  // An edit that changes nothing of the curve leaves the best look in its place.
  if (looked?.key === input.key && (looked.isBetter || sweeps !== BETTER)) return looked.curve;
  const seen = previewCurve(input.points, input.settings, sweeps, looked?.state ?? null, giveUpIfStale);
  looked = { key: input.key, isBetter: sweeps === BETTER, ...seen };
  return seen.curve;
}

/** A number and all it was made of, each once, the nearest first. */
function below(id: TraceId): TraceNode[] {
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

function answered(to: Question, of: string): AnsweredQuestion | NoAnswer | null {
  const curve = last === null ? null : curveOf(seenFrom(last.results, of));
  return curve === null ? null : answerTo(curve, to);
}

/** What was asked on the screen and is not reported. */
function belowChosen(id: TraceId): TraceNode[] {
  const top = last === null ? null : chosenNumber(id, last.results);
  if (top === null) return [];
  const nodes = new Map(top.parts.flatMap(below).map((node) => [node.id, node]));
  return [top, ...nodes.values()];
}
