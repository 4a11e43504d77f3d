/** Rows that lie in a core, samples and units: where each lay in the ground, and what is said where that is not known. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Runner } from '../runner/runner.ts';
import type { Known, Traced } from '../runner/step.ts';
import type { ModelledHole } from './holes.ts';
import { type Basis, type CorePlace, coreDepth, type NotPlaced, type Placed } from './place.ts';

type InCore = {
  row_id: string;
  hole: string | null;
  sample?: string;
  unit?: string | null;
};

export const measuredPlace = (
  basis: string | null,
  label: string | null,
  top_m: number,
  bottom_m: number,
): CorePlace => ({ basis: basis as Basis | null, label, top_m, bottom_m });

/** Where it lay, and what the trace names as the parts of that: its run and the depth model, or its push. */
export function placedIn(
  run: Runner,
  hole: ModelledHole,
  place: CorePlace,
): { placed: Known<Placed | NotPlaced>; parts: readonly Traced[] } {
  const placed = run.untold(coreDepth, { core: hole.core, place: run.plain(place) });
  return { placed, parts: partsOf(hole, place) };
}

/** What the trace names as the parts of a place: its run and the depth model, or its push. */
export function partsOf(
  { model, runs, pushes }: ModelledHole,
  { basis, label }: CorePlace,
): readonly Traced[] {
  const parts =
    basis === 'entered'
      ? [model]
      : basis === 'run'
        ? [runs.get(label ?? ''), model]
        : basis === 'push'
          ? [pushes.get(label ?? '')]
          : [];
  return parts.filter((part) => part !== undefined && part !== null);
}

export function coreProblem(
  campaign: Campaign,
  table: 'samples' | 'units',
  row: InCore,
  { column, found, expected, fix }: Pick<NotPlaced, 'column' | 'found' | 'expected'> & { fix?: string },
): Problem {
  return problem({
    severity: 'error',
    code: table === 'units' ? 'unit-not-placed' : 'sample-not-placed',
    table,
    row_id: row.row_id,
    line: campaign.lines.get(row.row_id) ?? null,
    label: row.sample ?? `${row.hole} ${row.unit ?? ''}`,
    column,
    found,
    expected,
    fix: fix ?? 'State where it lay.',
  });
}

/** It is placed as well as it can be, and said to be odd. */
export function doubtful(
  campaign: Campaign,
  table: 'samples' | 'units',
  row: InCore,
  { found, expected }: { found: string; expected: string },
): Problem {
  const fix =
    'Correct the depth or the run it is counted in; until then it is placed at the end of the core.';
  return {
    ...coreProblem(campaign, table, row, { column: 'top', found, expected, fix }),
    column: 'bottom',
    severity: 'warning',
    code: 'deeper-than-its-core',
  };
}
