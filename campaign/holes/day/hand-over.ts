/** The state of a hole as one crew hands it to the next: what is in it, what hangs in it, and what is dangerous. */
import { clockOf } from '@stillstand/campaign/tables';
import { tapeLength } from '@stillstand/science/base';
import type { RowSource } from '../row-source.ts';
import type { HoleState } from '../state.ts';
import { weighedHead } from '../weighed-head.ts';
import { handedOn } from './handed-on.ts';

/** ", water outside read at 13:58": an hour that the next crew must see before it trusts the head. */
function readAt({ read_at }: HoleState): string {
  const clock = clockOf(read_at.outside);
  return clock === '' ? '' : `, water outside read at ${clock}`;
}

/** Line by line, the dangers first; what is not known is said to be. Lengths in the unit of the crew’s tape. */
export function handOverLines(now: HoleState, source: RowSource): string[] {
  const { fold, run, last, row } = now;
  const unit = now.units.tape;
  const first = handedOn(now, source);
  const head = weighedHead(now);
  const shoe = last?.penetration_now_m ?? null;
  const joints = `${fold.joints_in} ${fold.joints_in === 1 ? 'joint' : 'joints'}`;
  const string =
    now.string.length === 0
      ? 'No string in the hole'
      : `String: ${joints}, ${fold.collar_to_shoe_m === null ? 'length not known' : `${tapeLength(fold.collar_to_shoe_m, unit)} from collar to shoe`}`;
  return [
    ...(first.length === 0 ? ['Dangers: none recorded'] : first),
    ...(row.method === 'string' ? [string] : []),
    ...(now.string.length === 0
      ? []
      : [
          `Shoe: ${shoe === null ? 'depth not known' : `${tapeLength(shoe, unit)} below the ground`}`,
          `Water head: ${head === null ? 'not known' : `${tapeLength(head.head_m, unit, 'at most')}${readAt(now)}`}`,
          run === null
            ? 'Nothing hangs in the string'
            : `Run ${run.run} in progress: the sampler hangs in the string${now.tip_m === null ? '' : `, tip ${tapeLength(now.tip_m, unit)} below the collar`}`,
        ]),
    ...(now.ended ? [`Hole ended: ${row.state ?? ''}`] : []),
  ];
}
