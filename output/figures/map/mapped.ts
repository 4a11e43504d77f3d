/** What is on the map: the holes of results that have coordinates. */
import { isGivenUp } from '@stillstand/campaign/holes';
import type { HoleResult } from '@stillstand/campaign/results';
import type { Position } from '@stillstand/science/survey';

/** A hole, or while none has its place a site. */
export interface Mapped extends Position {
  row_id: string;
  label: string;
  kind: 'drilled' | 'planned' | 'given_up' | 'site';
  /** Along the section; null where it has none. */
  section_m: number | null;
}

const kindOf = (state: string | null): Mapped['kind'] =>
  isGivenUp(state) ? 'given_up' : state === 'planned' ? 'planned' : 'drilled';

/** A hole of results as it is mapped. */
const mappedHole = ({
  row_id,
  hole,
  state,
  latitude_deg,
  longitude_deg,
  section_m,
}: HoleResult & Position): Mapped => ({
  row_id,
  label: hole,
  kind: kindOf(state),
  latitude_deg,
  longitude_deg,
  section_m,
});

const isPlaced = (hole: HoleResult): hole is HoleResult & Position =>
  Math.abs(hole.latitude_deg ?? Number.NaN) <= 90 && Number.isFinite(hole.longitude_deg ?? Number.NaN);

/** Drilled holes with coordinates, and those without; with `planned` those that are planned, too. */
export function mapped(
  holes: readonly HoleResult[],
  { planned = false } = {},
): { placed: Mapped[]; unplaced: string[] } {
  const shown = holes.filter(({ state }) => planned || state !== 'planned');
  return {
    placed: shown.filter(isPlaced).map(mappedHole),
    unplaced: shown.filter((hole) => !isPlaced(hole)).map(({ hole }) => hole),
  };
}
