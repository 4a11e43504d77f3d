/**
 * Ages for a run of horizons, drawn one after the other, downward or upward, each from its date's own years that are left or
 * from anywhere; and the density of that.
 */
import { exp, expm1, log, log1p, type RandomStream, square } from '@stillstand/science/base';
import type { History } from './history.ts';
import type { Bends, Run } from './run.ts';
import { between, yearAt, younger } from './sums.ts';

/** How often an age is drawn from its date. */
const IN_PLACE = 0.6;
/** Where less of a date is left than this it is not drawn from. */
const LEAST = 1e-9;
/** Sd of the logit of an age between two others where accumulation is about even. */
const EVEN = 1;
const HALF = 1 / Math.sqrt(2 * Math.PI);

/** Draws ages, each older than the one above. */
export function propose(h: History, room: Bends, run: Run, stream: RandomStream): void {
  const { dates, order, age, gaps_yr } = room;
  const { start, count, goesUp } = run;
  const place = h.state * h.hole.dates.length + start;
  let { begin, end } = run;
  for (let r = 0; r < count; r++) {
    const k = goesUp ? count - 1 - r : r;
    const i = order[place + k]!;
    const gaps = gaps_yr[k]!;
    const date = dates[i]!;
    const inPlace = stream.uniform() < IN_PLACE;
    const lot = stream.uniform();
    const low = younger(date, begin + gaps);
    const share = younger(date, end + gaps) - low;
    const t =
      inPlace && share > LEAST
        ? yearAt(date, low + share * lot) - gaps
        : anywhere(h, room, run, k, begin, end, lot, stream);
    age[k] = t;
    if (goesUp) end = t;
    else begin = t;
  }
}

/** Log density of the ages in `age` by that. */
export function logProposal(h: History, room: Bends, run: Run): number {
  const { dates, order, age, gaps_yr } = room;
  const { start, count, goesUp } = run;
  const place = h.state * h.hole.dates.length + start;
  let { begin, end } = run;
  let sum = 0;
  for (let r = 0; r < count; r++) {
    const k = goesUp ? count - 1 - r : r;
    const i = order[place + k]!;
    const gaps = gaps_yr[k]!;
    const date = dates[i]!;
    const t = age[k]!;
    const share = younger(date, end + gaps) - younger(date, begin + gaps);
    const elsewhere = densityAnywhere(h, room, run, k, begin, end, t);
    const cell = Math.floor(t + gaps - date.from_cal_bp);
    const inside = cell >= 0 && cell < date.sums.length - 1;
    const density = inside ? date.sums[cell + 1]! - date.sums[cell]! : 0;
    sum += log(share > LEAST ? (IN_PLACE * density) / share + (1 - IN_PLACE) * elsewhere : elsewhere);
    if (goesUp) end = t;
    else begin = t;
  }
  return sum;
}

/**
 * How an age is drawn whatever its date, between two ages: half the time the first of as many as are left, anywhere between;
 * half by how many metres lie above and below, as where accumulation is about even (`odds`), or where one side is open so
 * long from the other as is usual in the hole (`scale_yr`). Beyond an open end, about so long after the one above, as often shorter as longer (a Lomax distribution: its tail is
 * long, so that no history holds its ages for want of candidates elsewhere).
 */
interface Anywhere {
  kind: 'any year' | 'after' | 'odds' | 'before';
  by: number;
}

/** Of horizon k of the run, the ages drawn before it lying at the ends. */
function waysOf(h: History, room: Bends, run: Run, k: number, end: number): Anywhere {
  const { count, goesUp, opensUp, opensDown } = run;
  const first = goesUp ? (opensUp ? 1 : 0) : k;
  const last = goesUp ? k + 1 : opensDown ? count - 1 : count;
  if (end === Infinity) {
    if (opensUp && k === (goesUp ? count - 1 : 0)) return { kind: 'any year', by: 0 };
    return { kind: 'after', by: usual(h, room, run, first, k) };
  }
  const below = usual(h, room, run, k + 1, last);
  if (opensUp && (goesUp || k === 0)) return { kind: 'before', by: below };
  return { kind: 'odds', by: usual(h, room, run, first, k) / below };
}

function anywhere(
  h: History,
  room: Bends,
  run: Run,
  k: number,
  begin: number,
  end: number,
  lot: number,
  stream: RandomStream,
): number {
  const { kind, by } = waysOf(h, room, run, k, end);
  if (kind === 'any year') return begin + (h.hole.settings.age_range_cal_bp.oldest - begin) * lot;
  if (kind === 'after') return begin + (by * lot) / (1 - lot);
  const whole = end - begin;
  if (stream.uniform() < 0.5)
    return run.goesUp ? end + whole * between(lot, k + 1) : begin - whole * between(lot, run.count - k);
  if (kind === 'before') return end + by * log1p(lot * expm1(-whole / by));
  return begin + whole / (1 + exp(EVEN * stream.normal()) / by);
}

function densityAnywhere(
  h: History,
  room: Bends,
  run: Run,
  k: number,
  begin: number,
  end: number,
  age: number,
): number {
  const { kind, by } = waysOf(h, room, run, k, end);
  if (kind === 'any year') {
    const { oldest } = h.hole.settings.age_range_cal_bp;
    return age < oldest ? 1 / (oldest - begin) : 0;
  }
  if (kind === 'after') return by / square(by + age - begin);
  const whole = end - begin;
  const left = run.goesUp ? k + 1 : run.count - k;
  const beyond = (run.goesUp ? age - begin : end - age) / whole;
  let first = left / whole;
  for (let r = 1; r < left; r++) first *= beyond;
  if (kind === 'before') return 0.5 * first - (0.5 * exp((age - end) / by)) / (by * expm1(-whole / by));
  const x = (age - begin) / whole;
  const z = log(x / ((1 - x) * by)) / EVEN;
  return 0.5 * first + (0.5 * HALF * exp(-0.5 * z * z)) / (EVEN * x * (1 - x) * whole);
}

/** Time of the blocks from one to another at the hole's own accumulation, with the usual gap where one is free there. */
function usual({ hole, law }: History, { metres }: Bends, run: Run, first: number, last: number): number {
  let sum = 0;
  for (let block = first; block <= last; block++) sum += metres[block]!;
  const hasGap = run.gap >= 0 && run.aboveGap >= first && run.aboveGap <= last;
  return sum * exp(law.mean) + (hasGap ? hole.settings.gap_mean_yr : 0);
}
