/** A hole cored by hand with a chamber: half-metre pushes one below the other, nothing shortened, a little lost. */
import type { RandomStream } from '@stillstand/science/base';
import type { Core, Slice } from './core.ts';
import { openBook } from './field-book.ts';
import { centimetres, type Sheets } from './sheet.ts';

export interface HandPlan {
  hole: string;
  day: string;
  device: string;
  target_m: number;
  peg_m: number;
}

/** Depth of the chamber is kept by a mark on its rods, 1 sigma, metres. */
const MARK_SIGMA_M = 0.005;
const CHAMBER_M = 0.5;
const SLICE_M = 0.005;

export function coreByHand(plan: HandPlan, sheets: Sheets, stream: RandomStream): Core[] {
  const random = stream.split(plan.hole);
  const book = openBook(sheets, plan.hole, plan.day, plan.device);
  book.read('ground_levels', 'geologist', 5, { ground_below_reference: centimetres(plan.peg_m) });
  const cores: Core[] = [];
  for (let i = 0; (i + 1) * CHAMBER_M <= plan.target_m + 0.001; i++) {
    const label = `C${i + 1}`;
    const true_top_m = i * CHAMBER_M + (i === 0 ? 0 : MARK_SIGMA_M * random.normal());
    const kept_m = CHAMBER_M - (i === 3 ? 0.04 : 0);
    const slices: Slice[] = [];
    for (let k = 0; k < Math.round(kept_m / SLICE_M); k++) {
      slices.push({ depth_m: true_top_m + (k + 0.5) * SLICE_M, length_m: SLICE_M });
    }
    book.read('pushes', 'hand', 11, {
      push: label,
      from: centimetres(i * CHAMBER_M),
      to: centimetres((i + 1) * CHAMBER_M),
      recovered: centimetres(kept_m),
      note: i === 3 ? 'stone at the foot of the chamber' : '',
    });
    cores.push({ hole: plan.hole, label, basis: 'push', slices });
  }
  return cores;
}
