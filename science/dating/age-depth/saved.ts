/** A history kept aside, so that a change of it can be taken back; and another one, alike, that walks by itself. */
import { emptyHistory, type History } from './history.ts';

type Kept = Pick<
  History,
  'state' | 'ground_cal_bp' | 'ofProfiles' | 'variation' | 'memory' | 'spare' | 'law'
>;

export interface Saved extends Kept {
  /** What was in the arrays of the history that a change may change. */
  arrays: readonly Float64Array[];
}

const arraysOf = (h: History): Float64Array[] => [
  h.gap_yr,
  h.u,
  h.yr_per_m,
  h.top_cal_bp,
  h.fresh,
  h.stiffness,
  h.bare_cal_bp,
  h.gaps_yr,
  h.level,
];

export const roomToSave = (h: History): Saved => ({
  state: h.state,
  ground_cal_bp: h.ground_cal_bp,
  ofProfiles: h.ofProfiles,
  variation: h.variation,
  memory: h.memory,
  spare: h.spare,
  law: { ...h.law },
  arrays: arraysOf(h).map((each) => each.slice()),
});

/** Number by number: no two share one. */
function keep(from: Kept, to: Kept): void {
  to.state = from.state;
  to.ground_cal_bp = from.ground_cal_bp;
  to.ofProfiles = from.ofProfiles;
  to.variation = from.variation;
  to.memory = from.memory;
  to.spare = from.spare;
  to.law.mean = from.law.mean;
  to.law.log_variation = from.law.log_variation;
  to.law.log_persistence = from.law.log_persistence;
}

export function save(h: History, into: Saved): void {
  keep(h, into);
  for (const [n, each] of arraysOf(h).entries()) into.arrays[n]!.set(each);
}

/** A memory is written only while it is the spare one: the one taken back is as it was. */
export function takeBack(h: History, saved: Saved): void {
  keep(saved, h);
  for (const [n, each] of arraysOf(h).entries()) each.set(saved.arrays[n]!);
}

/** One like it in a hole like its own. */
export function copyOfHistory(h: History, hole: History['hole']): History {
  const copy = emptyHistory(hole, { ...h.law });
  copy.state = h.state;
  copy.ground_cal_bp = h.ground_cal_bp;
  copy.ofProfiles = h.ofProfiles;
  const own = arraysOf(copy);
  for (const [n, of] of arraysOf(h).entries()) own[n]!.set(of);
  return copy;
}
