/**
 * Where the acts of two copies lie along a line: by the clocks of the devices, or by their order where a clock is wrong.
 * Places are shares of the line, 0 to 1.
 */
import type { MergeConflict, MergePlan, StrandAct } from '@stillstand/campaign/merge';
import { dateOf, momentOf } from '@stillstand/campaign/tables';
import { whenWords, whoWords } from './when-words.ts';

/** Clocks that differ by less are taken as right: common practice, no source. */
const MAY_DIFFER_MS = 10 * 60_000;

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
/** Of the marks on the scale. */
const STEPS = [5 * MINUTE, 15 * MINUTE, 30 * MINUTE, HOUR, 2 * HOUR, 3 * HOUR, 6 * HOUR, 12 * HOUR].concat(
  [1, 2, 7, 14, 28, 91, 182, 365, 730].map((days) => days * DAY),
);

export interface Placed {
  ours: readonly number[];
  theirs: readonly number[];
  /** One for each conflict. */
  rings: readonly number[];
  /** Marks of the scale; none where the acts lie by their order. */
  scale: readonly { at: number; words: string }[];
  /** Why they lie by their order; null where they lie by their times. */
  fault: string | null;
}

type Plan = Pick<MergePlan, 'since' | 'ours' | 'theirs' | 'conflicts'>;

/** `now_ms` by the clock of this device; about `marks` marks are on the scale. */
export function placeActs(plan: Plan, now_ms: number, marks: number): Placed {
  const { since, ours, theirs, conflicts } = plan;
  const moments = new Map([...ours, ...theirs].map((act) => [act, momentOf(act.time) ?? Number.NaN]));
  const begin = since === null ? null : momentOf(since.time);
  const fault = clockFault(plan, moments, begin, now_ms);
  const all = [...moments.values()];
  const from = Math.min(...all, begin ?? Number.POSITIVE_INFINITY);
  const to = Math.max(...all);
  // Of one moment there is no line.
  if (fault !== null || !(to - from >= MINUTE)) {
    const byOrder = (acts: readonly StrandAct[]): number[] => acts.map((_, i) => (i + 1) / (acts.length + 1));
    const at = new Map([
      ...byOrder(ours).map((x, i) => [ours[i]!, x] as const),
      ...byOrder(theirs).map((x, i) => [theirs[i]!, x] as const),
    ]);
    return {
      ours: byOrder(ours),
      theirs: byOrder(theirs),
      rings: conflicts.map((conflict) => ringAt(conflict, at)),
      scale: [],
      fault,
    };
  }
  const at = new Map([...moments].map(([act, ms]) => [act, (ms - from) / (to - from)]));
  return {
    ours: ours.map((act) => at.get(act)!),
    theirs: theirs.map((act) => at.get(act)!),
    rings: conflicts.map((conflict) => ringAt(conflict, at)),
    scale: scaleOf(from, to, marks, ours[0] ?? theirs[0]),
    fault: null,
  };
}

/** Midway between what the two sides did; at the end for what no act of the strands says. */
function ringAt({ sides }: MergeConflict, at: ReadonlyMap<StrandAct, number>): number {
  const acts = [...at];
  const found = sides.flatMap(({ time, by, device }) => {
    const act = acts.find(([each]) => each.time === time && each.by === by && each.device === device);
    return act === undefined ? [] : [act[1]];
  });
  return found.length === 0 ? 1 : found.reduce((sum, x) => sum + x, 0) / found.length;
}

/** The first device whose clock cannot be right, in words. */
function clockFault(
  { since, ours, theirs }: Plan,
  moments: ReadonlyMap<StrandAct, number>,
  begin: number | null,
  now_ms: number,
): string | null {
  const last = new Map<string, number>();
  for (const act of [...ours, ...theirs]) {
    const who = whoWords(act) || 'a device without a name';
    const ms = moments.get(act)!;
    if (Number.isNaN(ms)) return `${who}: a change states no time`;
    if (ms > now_ms + MAY_DIFFER_MS) return `${who}: a change is dated ${whenWords(act.time)}, after now`;
    if (begin !== null && ms < begin - MAY_DIFFER_MS) {
      return `${who}: a change is dated ${whenWords(act.time)}, before what both copies have, ${whenWords(since!.time)}`;
    }
    if (ms < (last.get(who) ?? ms) - MAY_DIFFER_MS) return `${who}: its clock went back`;
    last.set(who, ms);
  }
  return null;
}

function scaleOf(from: number, to: number, marks: number, act: StrandAct | undefined): Placed['scale'] {
  const step = STEPS.find((each) => (to - from) / each <= marks) ?? (to - from) / marks;
  // By the clock of the place, as the first act states it: its time as if it were UTC.
  const local = momentOf(`${act?.time.slice(0, 19)}Z`) ?? from;
  const ahead = local - (momentOf(act?.time ?? '') ?? local);
  const found: { at: number; words: string }[] = [];
  let day: string | null = null;
  for (let ms = Math.ceil((from + ahead) / step) * step; ms <= to + ahead; ms += step) {
    const time = new Date(ms).toISOString().slice(0, 19);
    const words = whenWords(time, step >= DAY ? null : day);
    found.push({ at: (ms - ahead - from) / (to - from), words: step >= DAY ? words.split(',')[0]! : words });
    day = dateOf(time);
  }
  // Where all is on one day, the day is what both know of anyway.
  return found.filter(({ words }) => words.includes(',')).length > 1
    ? found
    : found.map(({ at, words }) => ({ at, words: words.split(', ').at(-1)! }));
}
