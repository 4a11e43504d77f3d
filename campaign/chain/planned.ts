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

/** "3.60–3.64 m", "3.60 m", "base of peat": where it is to come from; empty where it is not stated. */
export function plannedWhere({
  top_m,
  bottom_m,
  unit,
}: Pick<Row<'planned_samples'>, 'top_m' | 'bottom_m' | 'unit'>): string {
  const ends = [top_m, bottom_m].filter((m) => m !== null).sort((a, b) => a - b);
  const depth = ends.length === 0 ? '' : `${[...new Set(ends.map((m) => m.toFixed(2)))].join('–')} m`;
  return [depth, unit ?? ''].filter(Boolean).join(', ');
}
