/** Constants of a record, off the main thread. */
import { type Analysis, analyse, expectedConstituents, type TidalConstant } from '@stillstand/science/tide';

export interface TideAsked {
  time_ms: Float64Array;
  height_m: Float64Array;
  /** Constants whose ratios are expected; none, and they are those of the equilibrium tide. */
  reference: readonly TidalConstant[];
}

/** Null where the record is too short for any constant. */
export type TideAnswered = Analysis | null;

self.onmessage = ({ data }: MessageEvent<TideAsked>) => {
  const answer: TideAnswered = analyse(data, expectedConstituents(data.reference));
  self.postMessage(answer);
};
