/** Where a planned sample is to be cut from the cores there are, and the row it becomes. */
import type { Row } from '@stillstand/campaign/tables';
import { tapeLength } from '@stillstand/science/base';
import type { Core } from './cores.ts';

/** Cut around a depth that is planned without a thickness, m: 2 cm in all (common practice, no source). */
const HALF_M = 0.01;

/** A length of one core, m from its own zero. */
export interface Cut {
  core: Core;
  top_m: number;
  bottom_m: number;
}

type Unit = Parameters<typeof tapeLength>[1];
type Depths = Pick<Row<'planned_samples'>, 'top_m' | 'bottom_m'>;

/**
 * The cut of the core that holds most of what is planned, by where the depth model puts that core now; fall-in is never cut.
 * A core in hand goes before the ground itself. Null where no depth is planned, or no core reaches it.
 */
export function cutOf(planned: Depths, cores: readonly Core[]): Cut | null {
  const isHeld = ({ basis }: Core): boolean => basis === 'run' || basis === 'push';
  const others = cores.filter((core) => !isHeld(core));
  return cutIn(planned, cores.filter(isHeld)) ?? cutIn(planned, others);
}

function cutIn({ top_m, bottom_m }: Depths, cores: readonly Core[]): Cut | null {
  const one = top_m ?? bottom_m;
  const other = bottom_m ?? top_m;
  if (one === null || other === null) return null;
  const isPoint = one === other;
  const from_m = isPoint ? one - HALF_M : Math.min(one, other);
  const to_m = isPoint ? one + HALF_M : Math.max(one, other);
  let best: Cut | null = null;
  for (const core of cores) {
    const top = core.depthAt(core.fall_in_m);
    const bottom = core.depthAt(core.length_m);
    // A point belongs to the core it lies in, not to one that its cut only grazes.
    if (isPoint ? one < top || one > bottom : from_m >= bottom || to_m <= top) continue;
    const cut = { core, top_m: lengthAt(core, from_m), bottom_m: lengthAt(core, to_m) };
    const length = cut.bottom_m - cut.top_m;
    if (length > 0 && (best === null || length > best.bottom_m - best.top_m)) best = cut;
  }
  return best;
}

/** Length along a core at an in-situ depth, by halving: depths go down along it. 40 halvings of 20 m are below 1 nm. */
function lengthAt(core: Core, depth_m: number): number {
  let low = core.fall_in_m;
  let high = core.length_m;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (core.depthAt(middle) < depth_m) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** "run R3, 0.42–0.46 m", "run R3, 1 ft 4 1/2 in–1 ft 6 in": where to put the knife, as the tape is read. */
export const cutWords = (cut: Cut, unit: Unit): string => `${cut.core.name}, ${cutReach(cut, unit)}`;

/** The same without the core. */
export function cutReach({ top_m, bottom_m }: Cut, unit: Unit): string {
  const [top, bottom] = [tapeLength(top_m, unit), tapeLength(bottom_m, unit)];
  return `${unit === 'ft' ? top : top.replace(/ [a-z]+$/, '')}–${bottom}`;
}

/**
 * Cells of the sample that a planned one becomes: label, material and identifier as planned, depths as cut, to be corrected
 * where the knife went elsewhere. Without a cut its depths are left to be entered.
 */
export function takenCells(
  planned: Pick<Row<'planned_samples'>, 'sample' | 'hole' | 'material' | 'identifier'>,
  cut: Cut | null,
  unit: Unit,
): Record<string, string> {
  const { sample, hole, material, identifier } = planned;
  const at = (m: number): string => tapeLength(m, unit);
  return {
    sample,
    ...(hole === null ? {} : { hole }),
    ...(material === null ? {} : { material }),
    ...(identifier === null ? {} : { identifier }),
    ...(cut === null
      ? {}
      : {
          depth_basis: cut.core.basis,
          run: cut.core.run,
          top: at(cut.top_m),
          bottom: at(cut.bottom_m),
        }),
  };
}
