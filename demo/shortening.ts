/** The true law of shortening: what a slice of ground still measures when it has entered the pipe. */
import { exp, type RandomStream } from '@stillstand/science/base';

export interface Shortening {
  /** Local recovery of mud at the ground. */
  recovery_at_ground: number;
  /** Depth over which the shortening dies away, metres. */
  shortening_length_m: number;
}

/** One hole's law: about half at the ground, over two to three metres. */
export function drawShortening(random: RandomStream): Shortening {
  return {
    recovery_at_ground: Math.min(0.6, Math.max(0.4, 0.5 + 0.04 * random.normal())),
    shortening_length_m: Math.min(3, Math.max(1.6, 2.4 + 0.35 * random.normal())),
  };
}

/** Length in the pipe of a unit length of ground from a depth; `softness` is 1 for mud, more for peat, less for sand. */
export function localRecovery(law: Shortening, depth_m: number, softness: number): number {
  const missing = (1 - law.recovery_at_ground) * exp(-depth_m / law.shortening_length_m) * softness;
  return Math.max(0.2, 1 - missing);
}
