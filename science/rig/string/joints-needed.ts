/** How many more joints reach a target depth, with the lengths at hand. */

export interface JointsNeededInput {
  /** Shoe below the ground. */
  target_depth_m: number;
  /** Collar above the ground that must stay free at the end, for clamp and drive head. */
  stick_up_m: number;
  /** Length lost in each made-up thread. */
  makeup_loss_m: number;
  /** The string as it is; 0 where nothing is in the hole. */
  collar_to_shoe_m: number;
  /** Joints that lie ready. */
  at_hand: readonly { label: string | null; length_m: number }[];
}

export interface JointsNeeded {
  /** Collar to shoe that the target asks for. */
  needed_m: number;
  /** The fewest joints that do it: the longest, the last of them the shortest that is long enough. */
  joints: { label: string | null; length_m: number }[];
  /** With them. */
  collar_to_shoe_m: number;
  /** Stick-up there will be at the target; less than asked for where there is not enough pipe. */
  stick_up_m: number;
  /** Still missing with all that is at hand, m; 0 where it is enough. */
  short_m: number;
}

/** Nothing throws: joints without a length above the thread's loss add nothing and are not taken. */
export function jointsNeeded(input: JointsNeededInput): JointsNeeded {
  const { target_depth_m, makeup_loss_m, at_hand } = input;
  const needed_m = target_depth_m + input.stick_up_m;
  // the first joint of an empty string has no thread below it
  const gain = (length_m: number, first: boolean) => length_m - (first ? 0 : makeup_loss_m);
  const left = at_hand.filter((j) => j.length_m > makeup_loss_m).sort((a, b) => b.length_m - a.length_m);
  const joints: JointsNeeded['joints'] = [];
  let collar = input.collar_to_shoe_m;
  while (collar < needed_m - 1e-9 && left.length > 0) {
    const first = collar === 0;
    const enough = left.findLast((j) => collar + gain(j.length_m, first) >= needed_m - 1e-9);
    const taken = (enough ?? left[0]!).length_m;
    const [joint] = left.splice(
      left.findIndex((j) => j.length_m === taken),
      1,
    );
    joints.push({ label: joint!.label, length_m: joint!.length_m });
    collar += gain(joint!.length_m, first);
  }
  return {
    needed_m,
    joints,
    collar_to_shoe_m: collar,
    stick_up_m: collar - target_depth_m,
    short_m: Math.max(0, needed_m - collar),
  };
}
