/** The ground cut into drives between soundings, and each drive into cells: what does not depend on a draw. */
import { exp } from '@stillstand/science/base';
import type { DepthInput } from './model.ts';
import type { DepthSettings } from './settings.ts';

/** A spell of penetration between two sounded depths. */
export interface Spell {
  first: number;
  cells: number;
  cell_m: number;
  length_m: number;
  /** Correlation of the first cell with the cell above, and of one cell with the next. */
  enter: number;
  next: number;
  /** Direction in which the layers of the spell are moved together to meet a sounding; its mean is 1. */
  direction: Float64Array;
  /** 1 sd of the mean of the layers over the spell, given the cell above. */
  mean_sd: number;
  /** mean over the spell of what remains of the cell above. */
  carry: number;
}

type Step =
  | { kind: 'spell'; spell: Spell }
  | { kind: 'pin'; entered_m: number; sigma_m: number; place_sigma_m: number; after: Spell | null }
  | { kind: 'run'; entered_bottom_m: number; sigma_m: number; sounded: boolean };

export interface Ground {
  /** Cell edges below `from_m`, m, from 0. */
  edges: Float64Array;
  steps: Step[];
  pins: number;
}

/** Two soundings nearer than this are one penetration. */
const SAME_M = 1e-3;
/** No reading is without error; the filter divides by it. */
const LEAST_SIGMA_M = 1e-4;

/**
 * Cuts the ground. A pin whose spell came just before it is marked as ending that spell (`after`): the spell is drawn so
 * that it meets the pin. Pins may not go up: one that does counts at the deepest before it.
 */
export function cutGround(input: DepthInput, settings: DepthSettings): Ground {
  const edges: number[] = [0];
  const steps: Step[] = [];
  let reached = 0;
  let cellBefore = 0;
  const drive = (to: number): Spell | null => {
    const length_m = to - reached;
    if (!(length_m > SAME_M)) return null;
    const spell = spellOf(edges.length - 1, length_m, cellBefore, settings);
    for (let k = 1; k < spell.cells; k++) edges.push(reached + k * spell.cell_m);
    edges.push(to);
    reached = to;
    cellBefore = spell.cell_m;
    return spell;
  };
  for (const r of input.registration) {
    if (r.kind === 'pin') {
      const after = drive(r.penetration_m - input.from_m);
      steps.push({
        kind: 'pin',
        entered_m: r.entered_m,
        sigma_m: Math.max(LEAST_SIGMA_M, r.sigma_m),
        place_sigma_m: r.place_sigma_m,
        after,
      });
    } else {
      steps.push({
        kind: 'run',
        entered_bottom_m: r.entered_bottom_m,
        sigma_m: r.sigma_m,
        sounded: r.from === 'soundings',
      });
    }
  }
  const rest = drive(input.penetration_m - input.from_m);
  if (rest !== null) steps.push({ kind: 'spell', spell: rest });
  return {
    edges: Float64Array.from(edges),
    steps,
    pins: steps.filter((s) => s.kind === 'pin').length,
  };
}

/**
 * Layers are a first-order autoregression along the cells (an Ornstein–Uhlenbeck process), started from the cell above.
 * Given that cell, K is their covariance; the mean of the layers c = 1ᵀg/n has variance 1ᵀK1/n², and g − v·c with
 * v = n·K1/(1ᵀK1) is independent of c: so c may be moved along v to meet a sounding exactly.
 */
function spellOf(first: number, length_m: number, cellBefore: number, settings: DepthSettings): Spell {
  const cells = Math.max(1, Math.ceil(length_m / settings.cell_m - 1e-9));
  const cell_m = length_m / cells;
  const next = exp(-cell_m / settings.layer_length_m);
  const enter = cellBefore === 0 ? 0 : exp(-(cellBefore + cell_m) / 2 / settings.layer_length_m);
  const variance = settings.layer_sd ** 2;
  const v = new Float64Array(cells);
  const before = new Float64Array(cells);
  v[0] = variance * (1 - enter * enter);
  for (let k = 1; k < cells; k++) {
    v[k] = next * next * v[k - 1]! + variance * (1 - next * next);
    before[k] = next * (before[k - 1]! + v[k - 1]!);
  }
  const direction = new Float64Array(cells);
  let total = 0;
  let ahead = 1;
  for (let k = cells - 1; k >= 0; k--) {
    direction[k] = v[k]! * ahead + before[k]!;
    total += direction[k]!;
    ahead = 1 + next * ahead;
  }
  let carry = 0;
  for (let k = 0, left = enter; k < cells; k++, left *= next) carry += left / cells;
  for (let k = 0; k < cells; k++) direction[k] = (direction[k]! * cells) / total;
  return {
    first,
    cells,
    cell_m,
    length_m,
    enter,
    next,
    direction,
    mean_sd: Math.sqrt(total) / cells,
    carry,
  };
}
