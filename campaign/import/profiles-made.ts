/** The profile that activities of a core belong to, where the campaign has none of that core yet. */
import { readCell, schemas } from '@stillstand/campaign/tables';
import { leadMeasurement } from '@stillstand/science/lead';
import type { Given } from './given.ts';
import type { Here } from './here.ts';
import type { Mapping } from './mapping.ts';
import { wordOf } from './own-cells.ts';
import type { ProposedRow } from './proposal.ts';

const COLUMNS = schemas.lead_profiles.columns;
/** What a profile says beyond its core. */
const SAID = ['collected', 'supported_bq_kg', 'supported_sigma_bq_kg'] as const;

export interface UnreadInProfile {
  line: number;
  hole: string;
  column: (typeof SAID)[number];
  fault: { code: string; found: string; expected: string; fix: string };
}

/** `rows`: measurements that will be added; `givens`: the lines they come from. */
export function profilesMade(
  here: Here,
  rows: readonly ProposedRow[],
  givens: readonly Given[],
  mapping: Mapping,
): { made: ProposedRow[]; unread: UnreadInProfile[] } {
  const holeOf = new Map(here.rows('samples').map((row) => [row['sample'] ?? '', row['hole'] ?? '']));
  const there = new Set(here.rows('lead_profiles').map((row) => row['hole'] ?? ''));
  const labels = new Set(here.rows('lead_profiles').map((row) => row['profile'] ?? ''));
  const lines = new Map(givens.map((given) => [given.line, given]));
  const made: ProposedRow[] = [];
  const unread: UnreadInProfile[] = [];
  for (const { cells, line } of rows) {
    const what = leadMeasurement(cells['property'] ?? '');
    const hole = cells['hole'] ?? holeOf.get(cells['sample'] ?? '') ?? '';
    if ((what !== 'total' && what !== 'excess') || hole === '' || there.has(hole)) continue;
    there.add(hole);
    const profile: Record<string, string> = { profile: free(hole, labels), hole };
    labels.add(profile['profile']!);
    for (const column of SAID) {
      const said = wordOf(lines.get(line)!, mapping, column).trim();
      if (said === '') continue;
      const { fault } = readCell(column, COLUMNS[column], said, {});
      if (fault === undefined) profile[column] = said;
      else unread.push({ line, hole, column, fault });
    }
    made.push({ table: 'lead_profiles', cells: profile, line, made: true });
  }
  return { made, unread };
}

function free(hole: string, taken: ReadonlySet<string>): string {
  for (let n = 1; ; n++) {
    const label = n === 1 ? `${hole} lead-210` : `${hole} lead-210 (${n})`;
    if (!taken.has(label)) return label;
  }
}
