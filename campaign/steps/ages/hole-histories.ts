/** The history of a hole from all its clocks, and those of holes whose dates share errors. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { quantiles, type Range, randomStream } from '@stillstand/science/base';
import { type HoleOfClocks, inHistory, sharingOf } from '@stillstand/science/clocks';
import { ageDepth, ageDepthTogether } from '@stillstand/science/dating';
import { step } from '../runner/step.ts';

/** A sample, of which the draws of its depth are known. */
interface AtDepth {
  id: string;
  depth_m: Float64Array;
}

/** A place in a layer, of which the draws of its depth are known. */
export interface LevelAtDepth {
  unit: string;
  unit_row_id: string;
  share: number;
  depth_m: Float64Array;
}

/** What the history of a hole is made from. */
export type HoleToModel = {
  clocks: HoleOfClocks;
  samples: readonly AtDepth[];
  levels: readonly LevelAtDepth[];
};

const streamOf = (seed: number) => randomStream(seed).split('age against depth');

export const agesOfHole = step(
  'age against depth',
  ({ clocks, samples, levels, seed }: HoleToModel & { seed: number }, { onProgress }): HoleHistory | null => {
    const { input } = inHistory(clocks);
    const model = ageDepth(input, clocks.settings, streamOf(seed).split(clocks.hole), onProgress);
    return told(model, { clocks, samples, levels });
  },
);

/** Of holes whose dates share errors with each other, or within a hole; in their order. */
export const agesOfHoles = step(
  'ages against depth together',
  (
    { holes, seed }: { holes: readonly HoleToModel[]; seed: number },
    { onProgress },
  ): (HoleHistory | null)[] =>
    ageDepthTogether(
      holes.map(({ clocks }) => ({
        hole: clocks.hole,
        input: inHistory(clocks).input,
        shared: sharingOf(clocks),
        settings: clocks.settings,
      })),
      streamOf(seed),
      onProgress,
    ).map((model, h) => told(model, holes[h]!)),
);

/** Joint draws handed over, at most: every so manieth of those kept. */
const JOINT_DRAWS = 1000;

function told(
  model: ReturnType<typeof ageDepth>,
  { clocks, samples, levels }: HoleToModel,
): HoleHistory | null {
  if (model.kind === 'not_enough') return null;
  const { kind: _, agesAt, depthsAt, ...history } = model;
  const { lead } = inHistory(clocks);
  const ages = samples.map(({ depth_m }) => agesAt(depth_m));
  const { chains, draws } = history.diagnostics;
  const every = Math.ceil((chains * draws) / JOINT_DRAWS);
  const rows = Math.floor((chains * draws) / every);
  /** A row a draw. */
  const joint = (columns: readonly Float64Array[]): Float64Array =>
    Float64Array.from(
      { length: rows * columns.length },
      (_, k) => columns[k % columns.length]![Math.floor(k / columns.length) * every]!,
    );
  return {
    hole: clocks.hole,
    ...history,
    profiles: lead?.kind === 'read' ? lead.profiles.map(({ id }) => id) : [],
    samples: samples.map(({ id }, i) => ({ sample: id, age_cal_bp: rangeOf(ages[i]!) })),
    levels: levels.map(({ unit, unit_row_id, share }) => ({ unit, unit_row_id, share })),
    draws: {
      age_cal_bp: joint(ages),
      level_depth_m: joint(levels.map(({ depth_m }) => depthsAt(depth_m))),
      level_age_cal_bp: joint(levels.map(({ depth_m }) => agesAt(depth_m))),
    },
  };
}

function rangeOf(draws: Float64Array): Range {
  const [lower95, median, upper95] = quantiles(draws, [0.025, 0.5, 0.975]) as [number, number, number];
  return { median, lower95, upper95 };
}
