/** Where the samplers and the other gear of a campaign are: lost, stuck or left in a hole, damaged, or at hand. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { momentOf, type Row } from '@stillstand/campaign/tables';
import { latest, type Moment } from './pipe-order.ts';

type Tables = Pick<Campaign, 'rows'>;

export interface SamplerItem {
  sampler: string;
  row_id: string;
  kind: string | null;
  whereabouts: 'at hand' | 'stuck' | 'lost';
  /** Where it was lost or is stuck: the hole and the run; null at hand. */
  hole: string | null;
  run: string | null;
}

export interface GearItem {
  gear: string;
  row_id: string;
  kind: Row<'gear'>['kind'];
  count: number | null;
  marks: string | null;
  for: string | null;
  whereabouts: 'at hand' | 'damaged' | 'lost' | 'left';
  /** The hole it stayed in. */
  hole: string | null;
}

/**
 * One entry for each sampler, in the order of the table. It is lost or stuck where its last run says so: a later run with
 * it shows that it came back. Where the clock does not show which run was the last, it is lost.
 */
export function samplerInventory({ rows }: Tables): SamplerItem[] {
  const order = new Map(rows.holes.map(({ hole }, i) => [hole, i]));
  return rows.samplers.map(({ sampler, row_id, kind }) => {
    const runs = rows.runs.flatMap((row): (Moment & { row: Row<'runs'> })[] =>
      samplerOfRun(rows, row) === sampler && order.has(row.hole)
        ? [{ row, hole: row.hole, line: row.seq, time_ms: momentOf(row.time ?? '') ?? Number.NaN }]
        : [],
    );
    const last = latest(runs, ({ row }) => OUTCOMES.indexOf(row.outcome as never));
    const outcome = last?.row.outcome ?? null;
    const isGone = outcome === 'sampler_lost' || outcome === 'stuck';
    return {
      sampler,
      row_id,
      kind,
      whereabouts: outcome === 'sampler_lost' ? 'lost' : outcome === 'stuck' ? 'stuck' : 'at hand',
      hole: isGone ? last!.row.hole : null,
      run: isGone ? last!.row.run : null,
    };
  });
}

/** From the least grave; any other outcome is less so. */
const OUTCOMES = ['stuck', 'sampler_lost'] as const;

/** The sampler of a run; where that is blank, the only one there is. */
export const samplerOfRun = (rows: Tables['rows'], run: Row<'runs'>): string | null =>
  run.sampler ?? (rows.samplers.length === 1 ? rows.samplers[0]!.sampler : null);

/** One entry for each row of gear, in the order of the table. */
export const gearInventory = ({ rows }: Tables): GearItem[] =>
  rows.gear.map(({ gear, row_id, kind, count, marks, for: use, condition, left_in }) => ({
    gear,
    row_id,
    kind,
    count,
    marks,
    for: use,
    whereabouts:
      condition === 'lost'
        ? 'lost'
        : left_in !== null
          ? 'left'
          : condition === 'damaged'
            ? 'damaged'
            : 'at hand',
    hole: left_in,
  }));

/** A sampler was lost, and several could be meant: none of them is lost in the inventory until it is named. */
export function gearProblems({ rows, lines }: Pick<Campaign, 'rows' | 'lines'>): Problem[] {
  return rows.runs.flatMap((row) => {
    if (row.outcome !== 'sampler_lost' || samplerOfRun(rows, row) !== null || rows.samplers.length === 0)
      return [];
    return [
      problem({
        severity: 'warning',
        code: 'sampler-not-named',
        table: 'runs',
        row_id: row.row_id,
        line: lines.get(row.row_id) ?? null,
        label: `${row.hole} ${row.run}`,
        column: 'sampler',
        found: `a sampler lost, one of ${rows.samplers.map(({ sampler }) => sampler).join(', ')}`,
        expected: 'which sampler it was',
        fix: 'Enter the sampler of this run. Until then none of them is lost in the inventory.',
      }),
    ];
  });
}

/** "lost in T1, run R3", "at hand". */
export const samplerWords = ({ whereabouts, hole, run }: SamplerItem): string =>
  hole === null ? whereabouts : `${whereabouts} in ${hole}, run ${run}`;

/** "left in T1", "lost in T1", "damaged", "at hand". */
export const gearWords = ({ whereabouts, hole }: Pick<GearItem, 'whereabouts' | 'hole'>): string =>
  hole === null ? whereabouts : `${whereabouts} in ${hole}`;
