/**
 * Changes of a history by which a chain walks, at every scale from one section to the whole hole, so that both the
 * shape between two dates and the ages of many layers together are soon forgotten (multigrid in the sense of Goodman &
 * Sokal 1989, Phys. Rev. D 40:2035–2071). Each is a random walk of one number with its own step, tuned in the warm-up.
 *
 *   hat    a boundary between two blocks moves, their outer ends keep their ages: with f the upper one's share of the
 *          time, logit f walks. In u the measure is dT_a dT_b/(T_a T_b), along T_a + T_b fixed even in logit f, so no
 *          Jacobian is left.
 *   block  a block takes longer or shorter, and all below shifts.
 *   ground the ground's age walks, at the cost of the block below it, or all shifts with it.
 *   gap    a gap's logarithm walks, at the cost of a block beside it, or all below shifts.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { accept, type History, propose } from './history.ts';
import { sectionAt } from './section.ts';

type Kind = 'hat' | 'block' | 'ground' | 'gap above' | 'gap below' | 'gap';

export interface Move {
  kind: Kind;
  from: number;
  middle: number;
  to: number;
  gap: number;
}

/** Acceptance asked of a walk of one number (Gelman, Roberts & Gilks 1996, Bayesian Statistics 5:599–607). */
const WANTED = 0.44;
/** Now and then a step is so many times as long: from one peak of a calibrated age to another, in place and out. */
const LEAP = 6;
const LEAPS = 0.2;

/** All moves of a sweep. */
export function movesOf({ hole }: History): Move[] {
  const { sections, breaks, edge_m, surface } = hole;
  const moves: Move[] = [];
  const add = (kind: Kind, from: number, middle: number, to: number, gap = -1): void => {
    if (to > from) moves.push({ kind, from, middle, to, gap });
  };
  for (let size = 1; size < 2 * sections; size *= 2) {
    const stride = Math.max(1, size >> 1);
    for (let i = stride; i < sections; i += stride)
      add('hat', Math.max(0, i - size), i, Math.min(sections, i + size));
    for (let i = 0; i < sections; i += Math.max(2, size))
      add('block', i, Math.min(sections, i + size), Math.min(sections, i + size));
    // The last sections hang free.
    if (size < sections) add('block', sections - size, sections, sections);
    if (surface === null || surface.sd_yr > 0) {
      add('ground', 0, Math.min(sections, size), Math.min(sections, size));
    }
    breaks.forEach(({ depth_m }, b) => {
      const at = sectionAt(edge_m, depth_m[0]!);
      add('gap above', Math.max(0, at - size), at, at, b);
      add(
        'gap below',
        Math.min(sections, at + 1),
        Math.min(sections, at + 1 + size),
        Math.min(sections, at + 1 + size),
        b,
      );
    });
  }
  for (let b = 0; b < breaks.length; b++) moves.push({ kind: 'gap', from: 0, middle: 0, to: 0, gap: b });
  return moves;
}

/** Tries a move with a step; returns whether it was made. */
export function tryMove(h: History, move: Move, step: number, stream: RandomStream): boolean {
  const { from, middle, to } = move;
  const walk = step * stream.normal() * (stream.uniform() < LEAPS ? LEAP : 1);
  let gain: number;
  switch (move.kind) {
    case 'hat': {
      const a = h.top_cal_bp[middle]! - h.top_cal_bp[from]!;
      const b = h.top_cal_bp[to]! - h.top_cal_bp[middle]!;
      // ln of the new share over the old, of either block: f = 1/(1 + (b/a)e^−walk).
      const odds = exp(-walk);
      const above = (a + b) / (a + b * odds);
      const logAbove = log(above);
      gain = propose(h, from, middle, to, above, above * odds, logAbove, logAbove - walk, true);
      break;
    }
    case 'block':
      gain = propose(h, from, middle, to, exp(walk), 1, walk, 0, false);
      break;
    case 'ground': {
      gain = moveGround(h, to, walk);
      break;
    }
    default:
      gain = moveGap(h, move, walk);
  }
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return false;
  accept(h);
  return true;
}

/** The step of the ground is in thousands of years. */
function moveGround(h: History, to: number, walk: number): number {
  const { surface, settings, sections } = h.hole;
  const ground = h.ground_cal_bp + 1000 * walk;
  let prior = 0;
  if (surface === null) {
    const { youngest, oldest } = settings.age_range_cal_bp;
    if (!(ground >= youngest && ground <= oldest)) return -Infinity;
  } else {
    const z = (ground - surface.age_cal_bp) / surface.sd_yr;
    const z0 = (h.ground_cal_bp - surface.age_cal_bp) / surface.sd_yr;
    prior = 0.5 * (z0 * z0 - z * z);
  }
  // The largest block is the whole hole: there all shifts with the ground.
  if (to === sections) return prior + propose(h, 0, 0, 0, 1, 1, 0, 0, false, ground);
  const end = h.top_cal_bp[to]!;
  const share = (end - ground) / (end - h.ground_cal_bp);
  if (!(share > 0)) return -Infinity;
  const longer = log(share);
  // dT/T of the block at its end's age fixed.
  return prior - longer + propose(h, 0, to, to, share, 1, longer, 0, true, ground);
}

function moveGap(h: History, { kind, from, to, gap }: Move, walk: number): number {
  const scale = h.hole.settings.gap_mean_yr;
  const old = h.gap_yr[gap]!;
  const yr = old * exp(walk);
  const prior = (old - yr) / scale + walk;
  if (kind === 'gap') return prior + propose(h, 0, 0, 0, 1, 1, 0, 0, false, h.ground_cal_bp, gap, yr);
  const block = h.top_cal_bp[to]! - h.top_cal_bp[from]!;
  const share = 1 - (yr - old) / block;
  if (!(share > 0)) return -Infinity;
  const longer = log(share);
  return prior - longer + propose(h, from, to, to, share, 1, longer, 0, false, h.ground_cal_bp, gap, yr);
}

/** A step after the `count`th trial in the warm-up. */
export function tuned(step: number, wasMade: boolean, count: number): number {
  const next = step * exp(((wasMade ? 1 : 0) - WANTED) * (3 / (3 + 0.1 * count)));
  return Math.min(3, Math.max(1e-5, next));
}
