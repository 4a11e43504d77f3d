/** Places in the layers of a hole whose ages are kept: tops, bases and what lies between, with the draws of their depths. */
import type { Row } from '@stillstand/campaign/tables';
import { median } from '@stillstand/science/base';
import { layersOf } from '@stillstand/science/strata';
import type { Placed } from '../hole/place.ts';
import type { LevelAtDepth } from './hole-histories.ts';

/** Places in a layer lie at most so far apart. */
const APART_M = 0.5;
/** Of two layers that meet at an erosional contact the lower begins so far below it, m: it is older by the time missing. */
const BELOW_CONTACT_M = 1e-6;

/** From the top down; pieces of one layer are one, as in `unitResults`. No draw lies below `bottom_m`, where ages end. */
export function levelsOf(
  units: readonly { row: Row<'units'>; placed: Placed }[],
  bottom_m: number,
): LevelAtDepth[] {
  const sorted = [...units].sort((a, b) => a.placed.top.value - b.placed.top.value);
  return layersOf(sorted, ({ row }) => ({ unit: row.unit ?? '', sediment: row.sediment })).flatMap(
    (pieces) => {
      const { row, placed } = pieces[0]!;
      const held = (depth_m: number): number => Math.min(depth_m, bottom_m);
      const top = placed.top.draws.map((depth) => held(depth + BELOW_CONTACT_M));
      const base = pieces.at(-1)!.placed.bottom.draws.map((depth, k) => Math.max(top[k]!, held(depth)));
      const steps = Math.max(1, Math.ceil((median(base) - median(top)) / APART_M));
      return Array.from({ length: steps + 1 }, (_, i) => ({
        unit: row.unit ?? '',
        unit_row_id: row.row_id,
        share: i / steps,
        depth_m: top.map((from, k) => from + (i / steps) * (base[k]! - from)),
      }));
    },
  );
}
