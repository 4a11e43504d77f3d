/** Determinations as the table lists them: hole by hole along the section, from the top down. */
import type { DateResult, HoleResult, Results } from '@stillstand/campaign/results';
import type { DocRow } from '../../store/index.ts';

export interface Determination {
  row: DocRow;
  /** As computed; null where it could not be. */
  date: DateResult | null;
  /** Of its sample. */
  hole: string | null;
  depth_m: number | null;
}

export interface Group {
  name: string;
  rows: Determination[];
}

export function grouped(
  rows: readonly DocRow[],
  samples: readonly DocRow[],
  results: Results | null,
): Group[] {
  const dates = new Map(results?.dates.map((date) => [date.row_id, date]) ?? []);
  const placed = new Map(results?.samples.map((sample) => [sample.sample, sample]) ?? []);
  const holeOf = new Map(
    samples.map((r) => [r.cells['sample']?.trim() ?? '', r.cells['hole']?.trim() || null]),
  );
  const along = (hole: HoleResult): number => hole.section_m ?? Number.POSITIVE_INFINITY;
  const order = [...(results?.holes ?? [])].sort((a, b) => along(a) - along(b)).map((hole) => hole.hole);
  const all = rows.map((row): Determination => {
    const sample = row.cells['sample']?.trim() ?? '';
    return {
      row,
      date: dates.get(row.row_id) ?? null,
      hole: holeOf.get(sample) ?? null,
      depth_m: placed.get(sample)?.depth_m?.value ?? null,
    };
  });
  const names = [...new Set([...order, ...all.map((d) => d.hole).filter((hole) => hole !== null)])];
  const groups = names.map(
    (name): Group => ({ name: `Hole ${name}`, rows: all.filter((d) => d.hole === name) }),
  );
  const none = all.filter((d) => d.hole === null);
  const surface = none.filter((d) => holeOf.has(d.row.cells['sample']?.trim() ?? ''));
  groups.push(
    { name: 'From the surface', rows: surface },
    { name: 'Sample not named', rows: none.filter((d) => !surface.includes(d)) },
  );
  const last = Number.POSITIVE_INFINITY;
  for (const group of groups) {
    group.rows.sort(
      (a, b) =>
        (a.depth_m ?? last) - (b.depth_m ?? last) ||
        (a.date?.median_cal_bp ?? last) - (b.date?.median_cal_bp ?? last),
    );
  }
  return groups.filter((group) => group.rows.length > 0);
}

/** Ends of all densities, with a little room, cal BP; the table's time staff. */
export function span(groups: readonly Group[]): { oldest: number; youngest: number } {
  const dates = groups.flatMap((group) => group.rows.flatMap(({ date }) => (date === null ? [] : [date])));
  if (dates.length === 0) return { oldest: 10_000, youngest: 0 };
  const oldest = Math.max(...dates.map((d) => d.sets_95[0]?.older_cal_bp ?? d.median_cal_bp));
  const youngest = Math.min(...dates.map((d) => d.sets_95.at(-1)?.younger_cal_bp ?? d.median_cal_bp));
  const room = Math.max(50, (oldest - youngest) * 0.04);
  return { oldest: oldest + room, youngest: Math.max(-80, youngest - room) };
}
