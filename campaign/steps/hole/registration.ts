/** Trace of each entered length and each removed length down to the readings it depends on. */
import { traceId } from '@stillstand/campaign/results';
import type { ReducedHole } from '@stillstand/science/rig';
import type { Runner } from '../runner/runner.ts';
import type { Known, Traced } from '../runner/step.ts';
import { tellEntered, tellRemoved } from '../words/holes.ts';
import type { RigRow } from './rig-rows.ts';

export interface Registered {
  /** One for each sounding. */
  entered: Known<number>[];
  /** Removed length of each run, by its label. */
  runs: ReadonlyMap<string, Known<number>>;
}

export function registerDepth(
  run: Runner,
  hole: string,
  fold: ReducedHole,
  rows: readonly RigRow[],
): Registered {
  const named = traceId.hole(hole);
  const bySeq = (table: RigRow['table']) => rows.filter((r) => r.table === table);
  const joints = bySeq('string_items');
  const drives = bySeq('drives');
  const soundings = bySeq('soundings');
  const byId = new Map(rows.map((r) => [r.reading.row_id, r]));
  const string = (seq: number): Traced | null => {
    const members = joints.filter((j) => j.reading.seq <= seq);
    const last = members.at(-1);
    if (last === undefined) return null;
    return run.set(
      named.string(last.reading.seq),
      'The string',
      members.map((m) => m.known),
    );
  };
  const runs = new Map<string, Known<number>>();
  const removed: Known<number>[] = [];
  for (const reckoned of fold.runs) {
    const before = soundings.findLast((s) => s.reading.seq < reckoned.seq);
    const after = soundings.find((s) => s.reading.seq > reckoned.seq);
    const parts = [
      byId.get(reckoned.row_id),
      ...(reckoned.removed_from === 'soundings' ? [before, after] : []),
    ];
    const known = run.part(
      traceId.run(hole, reckoned.run),
      reckoned.removed_m,
      tellRemoved(reckoned),
      parts.flatMap((p) => (p === undefined ? [] : [p.known])),
    );
    runs.set(reckoned.run, known);
    removed.push(known);
  }
  const entered = fold.soundings.map((pin) => {
    const row = byId.get(pin.row_id)!;
    const { seq } = row.reading;
    const drive = drives.findLast((d) => d.reading.seq < seq);
    const earlier = fold.runs.filter((r) => r.seq < seq).length;
    const soFar =
      earlier === 0 ? null : run.set(named.removed(earlier), 'Removed so far', removed.slice(0, earlier));
    const parts = [row.known, drive?.known, string(seq), soFar].filter((p) => p !== undefined && p !== null);
    return run.part(named.entered(seq), pin.entered_m, tellEntered(pin), parts);
  });
  return { entered, runs };
}
