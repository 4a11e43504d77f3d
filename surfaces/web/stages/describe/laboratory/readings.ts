/** What was measured at one depth, of all quantities that are drawn: one line reads all lanes. */
import type { TraceId } from '@stillstand/campaign/results';
import { traceId } from '@stillstand/campaign/results';
import type { Lane } from '@stillstand/output/figures';
import { decimalsFor, printed } from '@stillstand/output/words';

/** Depths closer than this are one cut of the knife, m. */
const SAME_M = 0.005;

/** Depths with a value, from the top down, each once. */
export function depthsOf(lanes: readonly Lane[]): number[] {
  const all = lanes
    .flatMap((lane) =>
      lane.kind === 'grains' ? lane.samples.map((s) => s.depth_m) : lane.values.map((v) => v.depth_m),
    )
    .sort((a, b) => a - b);
  return all.filter((depth, i) => i === 0 || depth - all[i - 1]! > SAME_M);
}

/** Index of the depth nearest to a place. */
export const nearestTo = (depths: readonly number[], depth_m: number): number =>
  depths.reduce(
    (best, depth, i) => (Math.abs(depth - depth_m) < Math.abs(depths[best]! - depth_m) ? i : best),
    0,
  );

export interface Reading {
  property: string;
  text: string;
  id: TraceId;
}

/** The values of one depth; of a quantity that was measured twice there, both. */
export function readingsAt(lanes: readonly Lane[], depth_m: number): Reading[] {
  const isHere = (at: { depth_m: number }): boolean => Math.abs(at.depth_m - depth_m) <= SAME_M;
  return lanes.flatMap((lane): Reading[] =>
    lane.kind === 'grains'
      ? lane.samples.filter(isHere).map(({ row_id, percents }) => ({
          property: lane.property,
          text: lane.parts
            .map((part, i) => ({ part, percent: percents[i]! }))
            .filter(({ percent }) => percent >= 0.5)
            .map(({ part, percent }) => `${printed(percent, 0)} % ${part}`)
            .join(', '),
          id: traceId.grainSize(row_id),
        }))
      : lane.values.filter(isHere).map(({ trace, value, two_sigma, limit }) => ({
          property: lane.property,
          text: valueText(value, two_sigma, limit, lane.unit),
          id: traceId.typed(trace),
        })),
  );
}

function valueText(
  value: number | null,
  two_sigma: number | null,
  limit: 'less_than' | 'greater_than' | null,
  unit: string,
): string {
  if (value === null) return limit === null ? 'not determined' : 'below detection';
  const sign = limit === 'less_than' ? '< ' : limit === 'greater_than' ? '> ' : '';
  // As many as the error asks for; without one, as it was typed.
  const typed = /\.(\d+)$/.exec(String(value))?.[1]?.length ?? 0;
  const decimals = two_sigma === null ? Math.min(4, typed) : decimalsFor(two_sigma, 0);
  const error = two_sigma === null ? '' : ` ±${printed(two_sigma, decimals)}`;
  return `${sign}${printed(value, decimals)}${error} ${unit}`.trim();
}
