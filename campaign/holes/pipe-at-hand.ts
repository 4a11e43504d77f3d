/** What the recorded pipe of a campaign reaches: only joints at hand, their made-up lengths. */
import { type PipeItem, whereWords } from './pipe-inventory.ts';

export interface PipeAtHand {
  /** Joints whose length is known. */
  joints: number;
  /** At hand, but cut or never measured: their length adds nothing until it is. */
  unmeasured: string[];
  /** Shoe below the ground with all of them and the stick-up left free, m; 0 without any. */
  reach_m: number;
  /** Joints that cannot be had, and where they are. */
  gone: PipeItem[];
}

export function pipeAtHand(
  items: readonly PipeItem[],
  makeup_loss_m: number,
  stick_up_m: number,
): PipeAtHand {
  const joints = items.filter((i) => i.item === 'joint');
  const atHand = joints.filter((i) => i.isAtHand);
  const known = atHand.filter((i) => i.length_m !== null && i.whereabouts !== 'shortened');
  // the lowest makes no thread: the least loss is the one that is spared, on the safe side
  const losses = known.map((i) => i.makeup_loss_m ?? makeup_loss_m).sort((a, b) => a - b);
  const length =
    known.reduce((sum, i) => sum + i.length_m!, 0) - losses.slice(1).reduce((sum, m) => sum + m, 0);
  return {
    joints: known.length,
    unmeasured: atHand.filter((i) => !known.includes(i)).map((i) => i.label),
    reach_m: known.length === 0 ? 0 : Math.max(0, length - stick_up_m),
    gone: joints.filter((i) => !i.isAtHand),
  };
}

/** Items that go into a string of this kind of pipe: those of the kind, and those whose kind is not stated. */
export const ofPipe = (items: readonly PipeItem[], pipe: string | null): readonly PipeItem[] =>
  pipe === null ? items : items.filter((item) => item.pipe === null || item.pipe === pipe);

/** "C1, A1 lost in T1; B2 in the string of T3" */
export function goneWords(gone: readonly PipeItem[]): string {
  const by = Map.groupBy(gone, whereWords);
  return [...by].map(([where, items]) => `${items.map((i) => i.label).join(', ')} ${where}`).join('; ');
}
