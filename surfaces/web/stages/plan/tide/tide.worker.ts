/** The two long sums of Plan, off the main thread: levels of a tide over 19 years, constants of a record. */
import {
  type Analysis,
  analyse,
  expectedConstituents,
  type PredictedLevels,
  predictedLevels,
  type TidalConstant,
  type Tide,
} from '@stillstand/science/tide';

export type TideAsked =
  | { kind: 'levels'; tide: Tide; first_year: number }
  | {
      kind: 'constants';
      time_ms: Float64Array;
      height_m: Float64Array;
      /** Constants whose ratios are expected; none, and they are those of the equilibrium tide. */
      reference: readonly TidalConstant[];
    };

export type TideAnswered =
  | { kind: 'levels'; levels: PredictedLevels | null }
  | { kind: 'constants'; analysis: Analysis | null };

self.onmessage = ({ data }: MessageEvent<TideAsked>) => {
  const answer: TideAnswered =
    data.kind === 'levels'
      ? { kind: 'levels', levels: predictedLevels(data.tide, data.first_year) }
      : { kind: 'constants', analysis: analyse(data, expectedConstituents(data.reference)) };
  self.postMessage(answer);
};
