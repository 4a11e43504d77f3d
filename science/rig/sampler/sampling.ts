/** A run of the sampler: how close to the shoe, how much it took, how much came up. */
import { tapeLength } from '@stillstand/science/base';
import { metres } from '../finding.ts';
import { find, lengthOf, nameUnknown, type OpenHole, penetrationOf } from '../hole/open-hole.ts';
import type { RigReading, RunReading } from '../reading.ts';
import { enteredAt, type Inflow } from '../sediment/sediment.ts';
import type { ReducedRun } from './run.ts';
import { clearanceOf } from './sampler.ts';

export function takeRun(hole: OpenHole, reading: RunReading): void {
  const { sediment, settings } = hole;
  const length = lengthOf(hole);
  const { start_mark_m: start, end_mark_m: end } = reading;
  const reversed = start !== null && end !== null && start > end;
  if (reversed) {
    find(hole, reading, 'marks-reversed', 'error', {
      found: `start mark ${metres(start)}, end mark ${metres(end)}`,
      expected: 'an end mark deeper than the start mark',
      fix: 'Check which mark is which; the advance is not used.',
    });
  }
  const advance_m = start === null || end === null || reversed ? null : end - start;
  const tip_m = reversed ? Math.max(start, end) : end;
  let fall_in_m = reading.fall_in_m ?? 0;
  if (reading.recovered_m !== null && fall_in_m > reading.recovered_m) {
    find(hole, reading, 'fall-in-longer-than-recovered', 'error', {
      found: `fall-in ${metres(fall_in_m)} of ${metres(reading.recovered_m)} recovered`,
      expected: 'fall-in no longer than what came up',
      fix: 'Correct one of the two; all that came up is taken as fall-in.',
    });
    fall_in_m = reading.recovered_m;
  }
  const cored = reading.recovered_m === null ? null : reading.recovered_m - fall_in_m;
  let clearance: ReturnType<typeof clearanceOf> | null = null;
  if (tip_m !== null) {
    if (length === null) nameUnknown(hole, reading);
    else {
      const joints = hole.string.items.filter((i) => i.item === 'joint').length;
      clearance = clearanceOf(tip_m, length, joints, settings);
      nameClearance(hole, reading, clearance);
    }
  }
  if (start !== null && length !== null && sediment.plug_m !== null && !reversed) {
    const expected = length - sediment.plug_m;
    const off = start - expected;
    if (Math.abs(off) > Math.max(0.1, 3 * (hole.plugSigma + settings.mark_sigma_m))) {
      find(hole, reading, 'start-mark-disagrees', 'warning', {
        found: `sampler touched at ${metres(start)}`,
        expected: `sediment at ${metres(expected)} as sounded`,
        fix: 'Check the cable marks against the collar (zero check) and repeat the sounding.',
      });
    }
  }
  const removed = advance_m ?? cored ?? 0;
  const run: ReducedRun = {
    row_id: reading.row_id,
    seq: reading.seq,
    run: reading.run,
    removed_m: sediment.plug_m === null ? removed : Math.min(removed, sediment.plug_m),
    removed_sigma_m: advance_m === null ? settings.recovered_sigma_m : settings.cable_mark_sigma_m,
    removed_from: advance_m !== null ? 'advance' : cored !== null ? 'recovered' : 'nothing',
    advance_m,
    recovered_m: reading.recovered_m,
    fall_in_m,
    sampler_recovery: null,
    loss_position: reading.loss_position ?? 'unknown',
    outcome: reading.outcome,
    strokes_per_m:
      reading.strokes !== null && advance_m !== null && advance_m > 0 ? reading.strokes / advance_m : null,
    column_top_m: sediment.removed_m,
    column_bottom_m: sediment.removed_m,
    entered_top_m: 0,
    entered_bottom_m: 0,
    inflow_m: 0,
    clearance_m: clearance?.clearance_m ?? null,
    clearance_sigma_m: clearance?.sigma_m ?? null,
    tip_m,
    tip_depth_m:
      clearance === null || penetrationOf(hole) === null
        ? null
        : penetrationOf(hole)! - clearance.clearance_m,
  };
  run.column_bottom_m = run.column_top_m + run.removed_m;
  finishRun(run, sediment.inflows);
  if (hole.runsSince.length === 0) hole.plugBeforeRuns = sediment.plug_m;
  sediment.removed_m = run.column_bottom_m;
  if (sediment.plug_m !== null) sediment.plug_m -= run.removed_m;
  const event = {
    kind: 'run' as const,
    row_id: run.row_id,
    entered_bottom_m: run.entered_bottom_m,
    sigma_m: run.removed_sigma_m,
    from: advance_m !== null ? ('advance' as const) : ('recovered' as const),
  };
  sediment.registration.push(event);
  hole.runs.push(run);
  hole.runsSince.push({ run, event });
}

export function finishRun(run: ReducedRun, inflows: readonly Inflow[]): void {
  run.entered_top_m = enteredAt(inflows, run.column_top_m);
  run.entered_bottom_m = enteredAt(inflows, run.column_bottom_m);
  run.inflow_m = run.removed_m - (run.entered_bottom_m - run.entered_top_m);
  run.sampler_recovery =
    run.recovered_m !== null && run.removed_m > 0 ? (run.recovered_m - run.fall_in_m) / run.removed_m : null;
}

export function nameRecovered(hole: OpenHole, run: ReducedRun): void {
  if (run.recovered_m === null) return;
  const cored = run.recovered_m - run.fall_in_m;
  if (cored <= run.removed_m * hole.settings.recovery_max + 3 * run.removed_sigma_m) return;
  find(hole, { ...run, kind: 'run' }, 'recovered-more-than-removed', 'warning', {
    found: `${metres(cored)} came up, ${metres(run.removed_m)} was removed`,
    expected: 'no more than was removed',
    fix: 'Look for fall-in on top, or for inflow during the run; what came up is squeezed to fit.',
  });
}

function nameClearance(hole: OpenHole, reading: RunReading, c: ReturnType<typeof clearanceOf>): void {
  if (c.verdict === 'clear') return;
  const expected = `at least ${tapeLength(c.margin_m, 'm', 'at least')} above the shoe`;
  const left = tapeLength(c.clearance_m, 'm', 'at most');
  if (c.verdict === 'past shoe') {
    find(hole, reading, 'sampler-past-shoe', 'danger', {
      found: `tip ${tapeLength(-c.clearance_m, 'm', 'at least')} past the shoe`,
      expected,
      fix: 'Lift it now, if it still hangs there: stuck past the shoe it is freed only by pulling the whole string. Once it is out, inspect sampler and shoe.',
    });
  } else if (c.verdict === 'stop') {
    find(hole, reading, 'sampler-inside-margin', 'danger', {
      found: `tip ${left} above the shoe`,
      expected,
      fix: 'Stop: no deeper before the string is driven on.',
    });
  } else {
    find(hole, reading, 'sampler-close', 'warning', {
      found: `tip ${left} above the shoe`,
      expected: `at least ${tapeLength(2 * c.margin_m, 'm', 'at least')}, twice the margin`,
      fix: 'Watch the stop mark.',
    });
  }
}

/** Runs whose removed length no sounding tells, named once the chance is gone. */
export function nameUnsoundedRuns(hole: OpenHole, before: RigReading): void {
  for (const { run } of hole.runsSince) nameUnsounded(hole, run, before);
}

/**
 * After the last reading of a hole that goes on the last run may still be sounded: only those are named behind which
 * another run began.
 */
export function nameRunsAtEnd(hole: OpenHole, last: RigReading): void {
  if (hole.settings.ended) {
    nameUnsoundedRuns(hole, last);
    return;
  }
  for (const [i, { run }] of hole.runsSince.entries()) {
    const next = hole.runsSince[i + 1];
    if (next === undefined) nameRecovered(hole, run);
    else nameUnsounded(hole, run, { kind: 'run', seq: next.run.seq });
  }
}

function nameUnsounded(hole: OpenHole, run: ReducedRun, before: Pick<RigReading, 'kind' | 'seq'>): void {
  find(hole, { ...run, kind: 'run' }, 'run-without-soundings', 'warning', {
    found:
      before.seq === run.seq
        ? `run ${run.run} with no sounding after it`
        : `run ${run.run} with no sounding between it and ${before.kind} number ${before.seq}`,
    expected: 'a sounding before and after each run',
    fix: `Removed length taken from ${run.removed_from === 'advance' ? 'the cable marks' : run.removed_from === 'recovered' ? 'what came up' : 'nothing: unknown'}, with 1 sigma ${metres(run.removed_sigma_m)}.`,
  });
  nameRecovered(hole, run);
}
