/** The ground cut into spells between sounded depths, and each spell into cells: what does not depend on a draw. */
import { exp, square } from '@stillstand/science/base';
import type { DepthInput } from './model.ts';
import type { DepthSettings } from './settings.ts';

/** A spell of penetration between two sounded depths. Its cells are alike. */
export interface Spell {
  first: number;
  cells: number;
  cell_m: number;
  length_m: number;
  /** Layers of sd 1, from cell to cell: next = follow·before + noise; the first cell follows the last of the spell above. */
  enter: number;
  enter_variance: number;
  follow: number;
  follow_variance: number;
  /** Variance of one cell's layer. */
  variance: number;
}

/** Where the string stood, with what was read there: the spell that brought it down, and pins `from` to `to` − 1. */
export interface Stand {
  /** Null where nothing was driven before the first reading. */
  spell: Spell | null;
  from: number;
  to: number;
}

export interface Ground {
  /** Cell edges below `from_m`, m, from 0. */
  edges: Float64Array;
  stands: Stand[];
  /** Entered length as read, m, by pin. */
  read_m: Float64Array;
  /** Plug in the string while the middle of each cell was driven, m, as read and straight between soundings. */
  plug_m: Float64Array;
}

/** Two soundings nearer than this are one penetration. */
export const SAME_M = 1e-3;

/** Cuts the ground. Pins may not go up: one that does counts at the deepest before it. */
export function cutGround(input: DepthInput, settings: DepthSettings): Ground {
  const edges: number[] = [0];
  const stands: Stand[] = [];
  const read: number[] = [];
  const plug: number[] = [];
  let reached = 0;
  let entered = 0;
  let removed = 0;
  let above: Spell | null = null;
  const drive = (to: number, gain: number): Spell | null => {
    const length_m = to - reached;
    if (!(length_m > SAME_M)) return null;
    const spell = spellOf(edges.length - 1, length_m, above, settings);
    for (let k = 1; k < spell.cells; k++) edges.push(reached + k * spell.cell_m);
    for (let k = 0; k < spell.cells; k++) {
      plug.push(Math.max(0, entered - removed + ((k + 0.5) / spell.cells) * gain));
    }
    edges.push(to);
    reached = to;
    above = spell;
    return spell;
  };
  for (const r of input.registration) {
    if (r.kind === 'run') {
      removed = r.entered_bottom_m;
      continue;
    }
    const spell = drive(r.penetration_m - input.from_m, r.entered_m - entered);
    const last = stands[stands.length - 1];
    if (spell === null && last !== undefined) last.to++;
    else stands.push({ spell, from: read.length, to: read.length + 1 });
    read.push(r.entered_m);
    entered = r.entered_m;
  }
  const rest = input.penetration_m - input.from_m - reached;
  const spell = drive(input.penetration_m - input.from_m, settings.recovery_at_ground * rest);
  if (spell !== null) stands.push({ spell, from: read.length, to: read.length });
  return {
    edges: Float64Array.from(edges),
    stands,
    read_m: Float64Array.from(read),
    plug_m: Float64Array.from(plug),
  };
}

function spellOf(first: number, length_m: number, above: Spell | null, settings: DepthSettings): Spell {
  const cells = Math.max(1, Math.ceil(length_m / settings.cell_m - 1e-9));
  const cell_m = length_m / cells;
  const { variance, follow } = layersByCell(cell_m, { ...settings, layer_sd: 1 });
  // two cells of different size: the correlation of half of each
  const correlation = above === null ? 0 : Math.sqrt(follow * above.follow);
  return {
    first,
    cells,
    cell_m,
    length_m,
    enter: above === null ? 0 : correlation * Math.sqrt(variance / above.variance),
    enter_variance: variance * (1 - correlation * correlation),
    follow,
    follow_variance: variance * (1 - follow * follow),
    variance,
  };
}

/**
 * Layers are an Ornstein–Uhlenbeck process; its means over cells are nearly a first-order autoregression. The two numbers
 * of that are chosen so that a cell and the mean of many cells have their true variance: with x = cell ÷ correlation
 * length, v = 2(x − 1 + e^−x)/x² for the one, 2/x cells' worth for the other.
 */
export function layersByCell(
  cell_m: number,
  settings: Pick<DepthSettings, 'layer_sd' | 'layer_length_m'>,
): { variance: number; follow: number } {
  const x = cell_m / settings.layer_length_m;
  // where cells are tiny the difference loses its digits: the series
  const v = x < 1e-3 ? 1 - x / 3 : (2 * (x - 1 + exp(-x))) / (x * x);
  // v·(1 + follow)/(1 − follow) = 2/x
  return { variance: square(settings.layer_sd) * v, follow: (2 - x * v) / (2 + x * v) };
}
