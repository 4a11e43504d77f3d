/**
 * The ages of one or a few neighbouring dated horizons drawn anew, the history about them bending smoothly: the way of dates
 * from in place to out of it and back, and of two that contradict each other from the one to the other. A history that only
 * scales (`moves.ts`, `reach.ts`) must break at the horizons, which accumulation that persists forbids; here it gives way as
 * far up and down as it would by itself.
 *
 * Between two section boundaries, whose ages stay, the m horizons part the ground into m + 1 blocks; let w_k be the metres
 * of each section in block k, Q the precision of u there given the sections outside, and b_k = Q⁻¹w_k the least costly bend
 * for the time T_k of a block. Along u + Σ c_k b_k the times say what c is, so that the horizons' ages with ΣT fixed have the
 * density π(u)/|∂T/∂c|. Candidates are drawn from the dates, in place and out of it, and from between the boundaries; one of
 * them or the ages as they are is chosen by weight (iterated sampling-importance resampling: Andrieu, Lee & Vihola 2018,
 * Bernoulli 24:842–872), which leaves that density as it is. Where nothing below stays the last block is left out, and all
 * below shifts.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { logLikelihood } from './date-likelihood.ts';
import { type History, tell } from './history.ts';
import type { Hole } from './hole.ts';

/** Horizons at once, at most. */
export const MOST = 5;
const BLOCKS = MOST + 1;

/** Of a date's density: its sum up to the beginning of each year. */
interface Sums {
  from_cal_bp: number;
  sums: Float64Array;
}

/** Room to work in. */
export interface Bends {
  dates: readonly Sums[];
  /** [state × horizons]: the horizons by depth. */
  order: Int16Array;
  /** [block × section]. */
  w: Float64Array;
  b: Float64Array;
  /** By section. */
  diagonal: Float64Array;
  off: Float64Array;
  slope: Float64Array;
  factor: Float64Array;
  /** [candidate × section]: what is added to u; the last one's is being made. */
  bend: Float64Array;
  trial: Float64Array;
  /** By block: times wanted, what is added along b, gradients, [block × block]: Gram matrix of the bends, ∂T/∂c. */
  time: Float64Array;
  c: Float64Array;
  gradient: Float64Array;
  gram: Float64Array;
  jacobian: Float64Array;
  miss: Float64Array;
  logTime: Float64Array;
}

/** Ages to choose among besides the present ones. */
const CANDIDATES = Number(process.env['CAND'] ?? 4);

export function bendsOf(hole: Hole): Bends {
  const { sections, states, dates, section, below_m, section_m } = hole;
  const of = (n = sections): Float64Array => new Float64Array(n);
  const order = new Int16Array(states * dates.length);
  for (let k = 0; k < states; k++) {
    const at = (i: number): number => section[k * dates.length + i]! * section_m + below_m[k * dates.length + i]!;
    order.set(
      dates.map((_, i) => i).sort((a, b) => at(a) - at(b)),
      k * dates.length,
    );
  }
  return {
    dates: hole.horizons.map(({ age: { from_cal_bp, density } }) => {
      const sums = of(density.length + 1);
      for (let i = 0; i < density.length; i++) sums[i + 1] = sums[i]! + density[i]!;
      const whole = sums[density.length]!;
      return { from_cal_bp: from_cal_bp - 0.5, sums: sums.map((sum) => sum / whole) };
    }),
    order,
    w: of(sections * BLOCKS),
    b: of(sections * BLOCKS),
    diagonal: of(),
    off: of(),
    slope: of(),
    factor: of(),
    bend: of(sections * (CANDIDATES + 1)),
    trial: of(),
    time: of(BLOCKS),
    c: of(BLOCKS),
    gradient: of(BLOCKS),
    gram: of(BLOCKS * BLOCKS),
    jacobian: of(BLOCKS * BLOCKS),
    miss: of(BLOCKS),
    logTime: of(BLOCKS),
  };
}

/** Draws for `count` horizons from place `start` on in the order of depth; returns whether their ages are others. */
export function bendAt(
  h: History,
  room: Bends,
  start: number,
  count: number,
  stream: RandomStream,
): boolean {
  const { hole, top_cal_bp, yr_per_m } = h;
  const { sections, section_m, dates } = hole;
  const { order, w, b, slope, time, c, gradient, gram } = room;
  const n = dates.length;
  const first = h.state * n;
  const sectionAt = (place: number): number => hole.section[first + order[first + place]!]!;
  // From a boundary below another horizon to one above another; both stay.
  const top = sectionAt(start);
  const bottom = sectionAt(start + count - 1);
  const above = stream.uniform() < 0.6 ? start - 1 : stream.integer(start + 1) - 1;
  const under = start + count + (stream.uniform() < 0.6 ? 0 : stream.integer(n - start - count + 1));
  let from = 0;
  if (above >= 0 && sectionAt(above) < top) from = sectionAt(above) + 1;
  let to = sections;
  if (under < n && sectionAt(under) > bottom) to = sectionAt(under);
  const isOpen = to === sections;
  const blocks = isOpen ? count : count + 1;
  for (let j = from; j < to; j++) {
    let before = 0;
    for (let k = 0; k < count; k++) {
      const i = first + order[first + start + k]!;
      const at = hole.section[i]!;
      const reached = j < at ? section_m : j > at ? 0 : hole.below_m[i]!;
      w[k * sections + j] = reached - before;
      before = reached;
    }
    if (!isOpen) w[count * sections + j] = section_m - before;
  }
  factorise(h, room, from, to);
  for (let k = 0; k < blocks; k++) solve(room, k * sections, from, to);
  for (let k = 0; k < blocks; k++) {
    let g = 0;
    let t = 0;
    for (let j = from; j < to; j++) {
      g += b[k * sections + j]! * slope[j]!;
      t += w[k * sections + j]! * yr_per_m[j]!;
    }
    gradient[k] = g;
    time[k] = t;
    for (let l = 0; l <= k; l++) {
      let q = 0;
      for (let j = from; j < to; j++) q += b[k * sections + j]! * w[l * sections + j]!;
      gram[k * BLOCKS + l] = q;
      gram[l * BLOCKS + k] = q;
    }
  }
  let total = 0;
  for (let k = 0; k < blocks; k++) total += time[k]!;
  const begin = top_cal_bp[from]!;

  const end = isOpen ? Number.POSITIVE_INFINITY : begin + total;
  // The ages as they are.
  let proposed = 0;
  let before = begin;
  for (let k = 0; k < count; k++) {
    const i = order[first + start + k]!;
    const t = h.bare_cal_bp[i]!;
    proposed += logProposal(h, room, i, t, before, end, count - k, k * sections, from, to);
    before = t;
  }
  c.fill(0);
  const here = jacobianAt(h, room, from, to, blocks, -1);
  if (Number.isNaN(here)) return false;
  let peak = weigh(h, room, from, to, isOpen, -1) - proposed - here - log(stream.exponential());
  let chosen = -1;
  for (let m = 0; m < CANDIDATES; m++) {
    before = begin;
    proposed = 0;
    for (let k = 0; k < count; k++) {
      const i = order[first + start + k]!;
      const t = draw(h, room, i, before, end, count - k, k * sections, from, to, stream);
      proposed += logProposal(h, room, i, t, before, end, count - k, k * sections, from, to);
      time[k] = t - before;
      before = t;
    }
    if (!isOpen) time[count] = end - before;
    const noise = -log(stream.exponential());
    if (!(proposed < Infinity) || time.subarray(0, blocks).some((t) => !(t > 0))) continue;
    const jacobian = solveTimes(h, room, from, to, blocks, m);
    if (Number.isNaN(jacobian)) continue;
    let prior = 0;
    for (let k = 0; k < blocks; k++) {
      prior -= c[k]! * gradient[k]!;
      for (let l = 0; l < blocks; l++) prior -= 0.5 * c[k]! * c[l]! * gram[k * BLOCKS + l]!;
    }
    const weight = prior + weigh(h, room, from, to, isOpen, m) - proposed - jacobian + noise;
    if (weight > peak) {
      peak = weight;
      chosen = m;
    }
  }
  if (chosen < 0) return false;
  for (let j = from; j < to; j++) h.u[j] = h.u[j]! + room.bend[chosen * sections + j]!;
  tell(h);
  return true;
}

/** Of u between the boundaries, given all outside: the factors LDLᵀ of its precision, and the slope of −log density. */
function factorise(h: History, { diagonal, off, slope }: Bends, from: number, to: number): void {
  const { hole, fresh, variation, memory: m } = h;
  const { isCut, sections } = hole;
  const perFirst = 1 / (m.sd * variation);
  const perNew = 1 / (m.newSd * variation);
  const perOld = m.coefficient * perNew;
  let before = 0;
  for (let j = from; j < to; j++) {
    const isNew = j === 0 || isCut[j] === 1;
    const own = isNew ? perFirst : perNew;
    const next = j + 1 < sections && isCut[j + 1] === 0 ? perOld : 0;
    slope[j] = fresh[j]! * own - (next > 0 ? fresh[j + 1]! * next : 0);
    let d = own * own + next * next;
    if (j > from && !isNew) {
      const link = -perOld * perNew;
      off[j] = link / before;
      d -= link * off[j]!;
    } else off[j] = 0;
    diagonal[j] = d;
    before = d;
  }
}

function solve({ diagonal, off, w, b }: Bends, at: number, from: number, to: number): void {
  let last = 0;
  for (let j = from; j < to; j++) {
    last = w[at + j]! - off[j]! * last;
    b[at + j] = last;
  }
  let below = 0;
  for (let j = to - 1; j >= from; j--) {
    below = b[at + j]! / diagonal[j]! - (j + 1 < to ? off[j + 1]! * below : 0);
    b[at + j] = below;
  }
}

/** Log of |∂T/∂c| at c; leaves the Jacobian's factors, and log T − log of the wanted in `miss`. NaN where it is none. */
function jacobianAt(
  { yr_per_m, hole: { sections } }: History,
  { w, b, c, bend, jacobian, miss, logTime }: Bends,
  from: number,
  to: number,
  blocks: number,
  m: number,
): number {
  miss.fill(0);
  jacobian.fill(0);
  const put = (m < 0 ? CANDIDATES : m) * sections;
  for (let j = from; j < to; j++) {
    let d = 0;
    for (let k = 0; k < blocks; k++) d += c[k]! * b[k * sections + j]!;
    bend[put + j] = d;
    const x = m < 0 ? yr_per_m[j]! : exp(d) * yr_per_m[j]!;
    for (let k = 0; k < blocks; k++) {
      const x1 = w[k * sections + j]! * x;
      if (x1 === 0) continue;
      miss[k] = miss[k]! + x1;
      for (let l = 0; l < blocks; l++)
        jacobian[k * BLOCKS + l] = jacobian[k * BLOCKS + l]! + x1 * b[l * sections + j]!;
    }
  }
  // In rows of the logarithms; factored without exchanging rows, as each block bends most by its own.
  let sum = 0;
  for (let k = 0; k < blocks; k++) {
    const t = miss[k]!;
    if (!(t > 0)) return Number.NaN;
    const l = log(t);
    sum += l;
    miss[k] = logTime[k]! - l;
    for (let e = 0; e < blocks; e++) jacobian[k * BLOCKS + e] = jacobian[k * BLOCKS + e]! / t;
  }
  for (let k = 0; k < blocks; k++) {
    const p = jacobian[k * BLOCKS + k]!;
    if (!(p > 1e-12)) return Number.NaN;
    sum += log(p);
    for (let r = k + 1; r < blocks; r++) {
      const f = jacobian[r * BLOCKS + k]! / p;
      jacobian[r * BLOCKS + k] = f;
      for (let e = k + 1; e < blocks; e++)
        jacobian[r * BLOCKS + e] = jacobian[r * BLOCKS + e]! - f * jacobian[k * BLOCKS + e]!;
    }
  }
  return sum;
}

/** Finds c for the times by Newton's steps on their logarithms; the bend of candidate `m` is then put down. */
function solveTimes(h: History, room: Bends, from: number, to: number, blocks: number, m: number): number {
  const { c, time, logTime, miss, jacobian, b } = room;
  const { sections } = h.hole;
  for (let k = 0; k < blocks; k++) logTime[k] = log(time[k]!);
  c.fill(0);
  for (let step = 0; step < 24; step++) {
    const logDet = jacobianAt(h, room, from, to, blocks, m);
    if (Number.isNaN(logDet)) return Number.NaN;
    let off = 0;
    for (let k = 0; k < blocks; k++) off += Math.abs(miss[k]!);
    if (off < 1e-10) return logDet;
    for (let k = 0; k < blocks; k++)
      for (let l = 0; l < k; l++) miss[k] = miss[k]! - jacobian[k * BLOCKS + l]! * miss[l]!;
    for (let k = blocks - 1; k >= 0; k--) {
      for (let l = k + 1; l < blocks; l++) miss[k] = miss[k]! - jacobian[k * BLOCKS + l]! * miss[l]!;
      miss[k] = miss[k]! / jacobian[k * BLOCKS + k]!;
    }
    // Long steps are cut.
    let longest = 0;
    for (let j = from; j < to; j++) {
      let d = 0;
      for (let k = 0; k < blocks; k++) d += miss[k]! * b[k * sections + j]!;
      longest = Math.max(longest, Math.abs(d));
    }
    const cut = longest > 2 ? 2 / longest : 1;
    for (let k = 0; k < blocks; k++) c[k] = c[k]! + cut * miss[k]!;
  }
  return Number.NaN;
}

/** Log likelihood of the dates that move. */
function weigh(
  h: History,
  { bend, trial }: Bends,
  from: number,
  to: number,
  isOpen: boolean,
  m: number,
): number {
  const { hole, top_cal_bp, yr_per_m, gaps_yr, level } = h;
  const { dates, section_m, sections } = hole;
  const first = h.state * dates.length;
  let sum = 0;
  if (m < 0) {
    for (let i = 0; i < dates.length; i++) {
      const j = hole.section[first + i]!;
      if (j >= from && (isOpen || j < to)) sum += level[i]!;
    }
    return sum;
  }
  let age = top_cal_bp[from]!;
  let next = from;
  for (let i = 0; i < dates.length; i++) {
    const j = hole.section[first + i]!;
    if (j < from || j >= to) continue;
    if (j < next) {
      age = top_cal_bp[from]!;
      next = from;
    }
    for (; next < j; next++) age += section_m * yr_per_m[next]! * exp(bend[m * sections + next]!);
    const bare = age + hole.below_m[first + i]! * yr_per_m[j]! * exp(bend[m * sections + j]!);
    sum += logLikelihood(dates[i]!, bare + gaps_yr[i]!);
  }
  return sum;
}

const IN_PLACE = 0.6;
/** Less of a date than this between the ages that bound it: it is not tried in place. */
const LEAST = 1e-9;

/** Share of the date that is younger. */
function younger({ from_cal_bp, sums }: Sums, age_cal_bp: number): number {
  const x = age_cal_bp - from_cal_bp;
  if (!(x > 0)) return 0;
  const cell = Math.floor(x);
  if (cell >= sums.length - 1) return 1;
  return sums[cell]! + (x - cell) * (sums[cell + 1]! - sums[cell]!);
}

function ageAt({ from_cal_bp, sums }: Sums, share: number): number {
  let low = 0;
  let high = sums.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (sums[middle]! <= share) low = middle;
    else high = middle;
  }
  return from_cal_bp + low + (share - sums[low]!) / (sums[high]! - sums[low]!);
}

/** Time that the block above takes at the hole's own accumulation. */
function usual({ law, hole }: History, { w }: Bends, at: number, from: number, to: number): number {
  let metres = 0.01 * hole.section_m;
  for (let j = from; j < to; j++) metres += w[at + j]!;
  return metres * exp(law.mean);
}

/** An age without gaps of date i, older than the one above: from the date's years there are, else anywhere before the end. */
function draw(
  h: History,
  room: Bends,
  i: number,
  above: number,
  end: number,
  left: number,
  at: number,
  from: number,
  to: number,
  stream: RandomStream,
): number {
  const date = room.dates[i]!;
  const gaps = h.gaps_yr[i]!;
  const low = younger(date, above + gaps);
  const share = younger(date, end + gaps) - low;
  const inPlace = stream.uniform() < IN_PLACE;
  const lot = stream.uniform();
  if (inPlace && share > LEAST) return ageAt(date, low + share * lot) - gaps;
  // As the youngest of so many ages anywhere.
  if (end < Infinity) return above + (end - above) * (1 - lot ** (1 / left));
  return above - usual(h, room, at, from, to) * log(1 - lot);
}

/** Log density of that. */
function logProposal(
  h: History,
  room: Bends,
  i: number,
  t: number,
  above: number,
  end: number,
  left: number,
  at: number,
  from: number,
  to: number,
): number {
  const date = room.dates[i]!;
  const gaps = h.gaps_yr[i]!;
  const share = younger(date, end + gaps) - younger(date, above + gaps);
  let anywhere: number;
  if (end < Infinity) {
    const length = end - above;
    anywhere = (left / length) * ((end - t) / length) ** (left - 1);
  } else {
    const scale = usual(h, room, at, from, to);
    anywhere = exp(-(t - above) / scale) / scale;
  }
  if (!(share > LEAST)) return log(anywhere);
  const cell = Math.floor(t + gaps - date.from_cal_bp);
  const density =
    cell >= 0 && cell < date.sums.length - 1 ? date.sums[cell + 1]! - date.sums[cell]! : 0;
  return log((IN_PLACE * density) / share + (1 - IN_PLACE) * anywhere);
}
