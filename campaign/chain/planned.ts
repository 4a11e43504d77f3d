/** Samples that are planned, and what became of them: taken as soon as a sample has the same label. */
import type { Campaign } from '@stillstand/campaign/document';
import { hasEnded } from '@stillstand/campaign/holes';
import type { Row } from '@stillstand/campaign/tables';

export interface PlannedSample {
  row: Row<'planned_samples'>;
  /** `missed`: its hole has ended without it; it may still come from a core in store. */
  state: 'planned' | 'taken' | 'missed';
  /** The sample it became. */
  taken: Row<'samples'> | null;
}

/** In the order of their table. */
export function plannedSamples({ rows }: Pick<Campaign, 'rows'>): PlannedSample[] {
  const samples = new Map(rows.samples.map((row) => [row.sample, row]));
  const ended = new Set(rows.holes.filter((row) => hasEnded(row.state)).map((row) => row.hole));
  return rows.planned_samples.map((row) => {
    const taken = samples.get(row.sample) ?? null;
    const isMissed = taken === null && row.hole !== null && ended.has(row.hole);
    return { row, taken, state: taken !== null ? 'taken' : isMissed ? 'missed' : 'planned' };
  });
}

/** "3.60–3.64 m", "3.60 m", "base of peat": where it is to come from; empty where nobody said. */
export function plannedWhere({
  top_m,
  bottom_m,
  unit,
}: Pick<Row<'planned_samples'>, 'top_m' | 'bottom_m' | 'unit'>): string {
  const ends = [top_m, bottom_m].filter((m) => m !== null);
  const depth = ends.length === 0 ? '' : `${[...new Set(ends.map((m) => m.toFixed(2)))].join('–')} m`;
  return [depth, unit ?? ''].filter(Boolean).join(', ');
}

/**
 * Planned samples of a hole that are not taken, whose depth lies in what came up: `from_m` and `to_m` are the depths below
 * ground a core covers, m. Where only one end is planned, that end counts.
 */
export const plannedWithin = (
  planned: readonly PlannedSample[],
  hole: string,
  from_m: number,
  to_m: number,
): PlannedSample[] =>
  planned.filter(({ row, state }) => {
    const top_m = row.top_m ?? row.bottom_m;
    const bottom_m = row.bottom_m ?? row.top_m;
    if (row.hole !== hole || state === 'taken' || top_m === null || bottom_m === null) return false;
    return Math.min(top_m, bottom_m) < to_m && Math.max(top_m, bottom_m) > from_m;
  });
