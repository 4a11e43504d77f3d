/** What the laboratory gives of a campaign: grain sizes, what pans weigh, and the logs of every hole. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { GrainSizeResult, LogResult } from '@stillstand/campaign/results';
import type { ScaleName } from '@stillstand/science/laboratory';
import { complaintsOfMeasurements } from '../hole/measurements.ts';
import type { Runner } from '../runner/runner.ts';
import type { Placed } from './at-one-place.ts';
import { grainSizes } from './grain-sizes.ts';
import { logsOf } from './logs.ts';
import { weighedValues } from './weights.ts';

export function laboratory(
  run: Runner,
  campaign: Campaign,
  measurements: readonly Placed[],
  scale: ScaleName,
): { logs: LogResult[]; grain_sizes: GrainSizeResult[]; problems: Problem[] } {
  const { problems, complain } = complaintsOfMeasurements(campaign);
  const grains = grainSizes(run, measurements, scale, complain);
  const weighed = weighedValues(run, measurements, complain);
  const logs = logsOf(measurements, weighed.made, new Set([...grains.rows, ...weighed.rows]), complain);
  return { logs, grain_sizes: grains.made, problems };
}
