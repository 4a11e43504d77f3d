/** A history kept aside, so that a change of it can be taken back; and another one, alike, that walks by itself. */
import { emptyHistory, type History } from './history.ts';

type Kept = Pick<History, 'state' | 'ground_cal_bp' | 'ofProfiles' | 'variation' | 'memory' | 'spare'>;

export interface Saved extends Kept {
  law: History['law'];
  numbers: readonly Float64Array[];
}

const keptOf = ({ state, ground_cal_bp, ofProfiles, variation, memory, spare }: Kept): Kept => ({
  state,
  ground_cal_bp,
  ofProfiles,
  variation,
  memory,
  spare,
});

/** All arrays of a history that a change may change. */
const numbersOf = (h: History): Float64Array[] => [
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
  ...keptOf(h),
  law: { ...h.law },
  numbers: numbersOf(h).map((each) => each.slice()),
});

type WithLaw = Kept & { law: History['law'] };

/** Number by number: no two share one. */
function keep(from: WithLaw, to: WithLaw): void {
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
  for (const [n, each] of numbersOf(h).entries()) into.numbers[n]!.set(each);
}

/** A memory is written only while it is the spare one: the one taken back is as it was. */
export function takeBack(h: History, saved: Saved): void {
  keep(saved, h);
  for (const [n, each] of numbersOf(h).entries()) each.set(saved.numbers[n]!);
}

/** One like it in a hole like its own. */
export function copyOfHistory(h: History, hole: History['hole']): History {
  const copy = emptyHistory(hole, { ...h.law });
  const { memory, spare } = copy;
  takeBack(copy, roomToSave(h));
  copy.spare = spare;
  copy.memory = memory;
  memory.coefficient.set(h.memory.coefficient);
  memory.sd.set(h.memory.sd);
  memory.newSd.set(h.memory.newSd);
  memory.logs = h.memory.logs;
  return copy;
}
