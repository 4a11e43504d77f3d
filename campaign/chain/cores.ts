/**
 * The cores of a hole: what a person lays a tape along. A run or push has its own zero; the length of everything that
 * entered and the ground itself count as one core each. Where a length lies in the ground is interpolated from the
 * results, so that the drawing can follow a hand; the numbers written with it are the results' own.
 */
import type { HoleResult, RunResult } from '@stillstand/campaign/results';
import { alongRemoved } from '@stillstand/science/rig';

export type Basis = 'run' | 'push' | 'entered' | 'in_situ';

export interface Core {
  basis: Basis;
  /** Label of the run or push; empty for the others. */
  run: string;
  /** What a person calls it: "run R5", "the ground". */
  name: string;
  /** Length that came up, or that there is to describe, metres. */
  length_m: number;
  /** Fallen in on top, disturbed: not described. */
  fall_in_m: number;
  /** What was taken out along everything that entered, lost core included; null where the ground itself is measured. */
  entered: { top_m: number; bottom_m: number } | null;
  /** The same in the ground. */
  depth: { top_m: number; bottom_m: number };
  /** Along everything that entered; null where the ground itself is measured. */
  enteredAt(x_m: number): number | null;
  /** In-situ depth below the ground at the start of the hole. */
  depthAt(x_m: number): number;
}

/** Every core the hole has or its units need, from the top down. */
export function coresOf(hole: HoleResult, bases: Iterable<Basis> = []): Core[] {
  const inSitu = depthOfEntered(hole);
  const cores = hole.runs.filter((run) => run.recovered_m > 0).map((run) => coreOfRun(run, inSitu));
  const wanted = new Set(bases);
  const reach = Math.max(
    0,
    hole.penetration_m ?? 0,
    ...hole.units.map((u) => u.depth_bottom_m.value),
    ...hole.runs.map((r) => r.depth_bottom_m.value),
  );
  if (wanted.has('entered')) {
    const length_m = hole.entered_m ?? reach;
    cores.push({
      basis: 'entered',
      run: '',
      name: 'everything that entered',
      length_m,
      fall_in_m: 0,
      entered: { top_m: 0, bottom_m: length_m },
      depth: { top_m: 0, bottom_m: inSitu(length_m) },
      enteredAt: (x) => x,
      depthAt: (x) => inSitu(x),
    });
  }
  if (wanted.has('in_situ') || cores.length === 0) {
    const length_m = Math.max(reach, 1);
    cores.push({
      basis: 'in_situ',
      run: '',
      name: 'the ground',
      length_m,
      fall_in_m: 0,
      entered: null,
      depth: { top_m: 0, bottom_m: length_m },
      enteredAt: () => null,
      depthAt: (x) => x,
    });
  }
  return cores;
}

function coreOfRun(run: RunResult, depth: (entered_m: number) => number): Core {
  const taken_m = run.entered_bottom_m - run.entered_top_m;
  // What the sampler holds lies somewhere in what it took out; where the loss is unknown, in the middle.
  const alongCore = (x: number): number => {
    if (run.method === 'push')
      return Math.max(0, Math.min(run.recovered_m - run.fall_in_m, x - run.fall_in_m));
    const { low, high } = alongRemoved(run, x);
    return (low + high) / 2;
  };
  // Inflow makes what was removed longer than what entered.
  const scale = run.method === 'run' && run.removed_m > 0 ? taken_m / run.removed_m : 1;
  const enteredAt = (x: number): number => run.entered_top_m + alongCore(x) * scale;
  return {
    basis: run.method,
    run: run.run,
    name: `${run.method} ${run.run}`,
    length_m: run.recovered_m,
    fall_in_m: run.fall_in_m,
    entered: { top_m: run.entered_top_m, bottom_m: run.entered_bottom_m },
    depth: { top_m: run.depth_top_m.value, bottom_m: run.depth_bottom_m.value },
    enteredAt,
    depthAt: (x) => depth(enteredAt(x)),
  };
}

/**
 * In-situ depth at an entered length, straight between the places the results know: ends of runs and of units, and
 * between those the shape of the depth model. Beyond them it goes on at the same slope.
 */
function depthOfEntered(hole: HoleResult): (entered_m: number) => number {
  const known = new Map<number, number>();
  for (const run of hole.runs) {
    known.set(run.entered_top_m, run.depth_top_m.value);
    known.set(run.entered_bottom_m, run.depth_bottom_m.value);
  }
  for (const unit of hole.units) {
    if (unit.core_top_m !== null) known.set(unit.core_top_m, unit.depth_top_m.value);
    if (unit.core_bottom_m !== null) known.set(unit.core_bottom_m, unit.depth_bottom_m.value);
  }
  const { depth } = hole;
  const shape =
    depth === null || depth.entered_m.length < 2 ? null : straight(depth.entered_m, depth.median_m);
  const places = [...known].sort((a, b) => a[0] - b[0]);
  if (places.length < 2) return shape ?? ((entered) => entered);
  const x = places.map(([entered]) => entered);
  if (shape === null)
    return straight(
      x,
      places.map(([, m]) => m),
    );
  const off = straight(
    x,
    places.map(([entered, m]) => m - shape(entered)),
  );
  const first = x[0]!;
  const last = x.at(-1)!;
  return (entered) => shape(entered) + off(Math.min(last, Math.max(first, entered)));
}

/** Straight between points in ascending order, and on beyond them. */
function straight(x: ArrayLike<number>, y: ArrayLike<number>): (at: number) => number {
  return (at) => {
    let high = 1;
    while (high < x.length - 1 && x[high]! < at) high++;
    const low = high - 1;
    const span = x[high]! - x[low]!;
    return y[low]! + (span > 0 ? ((at - x[low]!) / span) * (y[high]! - y[low]!) : 0);
  };
}

/** The core a row was measured in; null where there is none of that name. */
export function coreOfCells(cores: readonly Core[], cells: Readonly<Record<string, string>>): Core | null {
  const basis = cells['depth_basis']?.trim() ?? '';
  const run = cells['run']?.trim() ?? '';
  const isOne = basis === 'run' || basis === 'push';
  return cores.find((core) => core.basis === basis && (!isOne || core.run === run)) ?? null;
}
