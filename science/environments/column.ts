/** A hole as it is asked about: layers with joint draws of their depths and ages. Draw k of everything is one history. */

/** A place in a layer, draw by draw. */
export interface Level {
  /** m below the ground. */
  depth_m: Float64Array;
  /** cal BP; of one draw the ages of a hole do not fall with depth. */
  age_cal_bp: Float64Array;
}

export interface AgedLayer {
  id: string;
  /** In the words of whoever described it; null where nothing is said or it is said not to be known. */
  environment: string | null;
  /** Laid down at once, by a storm or a flood: it took no time, and no environment stood while it was laid. */
  isAtOnce: boolean;
  /** From its top to its base, two or more; its ages in between are taken as straight. */
  levels: readonly Level[];
}

export interface AgedColumn {
  hole: string;
  along_m: number;
  /** Elevation of the ground, draw by draw, m. */
  ground_m: Float64Array;
  /** From the top down, one or more. */
  layers: readonly AgedLayer[];
}

export const topOf = ({ levels }: AgedLayer): Float64Array => levels[0]!.age_cal_bp;
export const baseOf = ({ levels }: AgedLayer): Float64Array => levels.at(-1)!.age_cal_bp;

/** Layers that took time. */
export const thatTookTime = ({ layers }: AgedColumn): AgedLayer[] =>
  layers.filter(({ isAtOnce }) => !isAtOnce);

/** Draws of a column. */
export const drawsOf = ({ ground_m }: AgedColumn): number => ground_m.length;
