/** Laboratory values of a hole, a lane for each quantity: what is drawn in it, and on what scale. */
import type { LogResult, Results } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';
import { type GrainLane, grainLaneOf } from './grain-lane.ts';

/** A value at its depth, in the unit of its lane. */
export interface LaneValue {
  trace: string;
  depth_m: number;
  /** Where its middle lies by 95 %. */
  lower95_m: number;
  upper95_m: number;
  thickness_m: number;
  /** Null where nothing but that it was looked for is known: not determined, or below a limit that is not stated. */
  value: number | null;
  two_sigma: number | null;
  limit: 'less_than' | 'greater_than' | null;
}

export interface ValueLane {
  kind: 'values';
  property: string;
  /** As its head says it; numbers of 0.0012 are written in thousandths. */
  unit: string;
  /** From the top down. */
  values: LaneValue[];
  low: number;
  high: number;
}

export type Lane = ValueLane | GrainLane;

/** What was measured in a hole and has a depth; the quantity with most values first, grain size before others of as many. */
export function lanesOf(results: Results, hole: string): Lane[] {
  const grains = grainLaneOf(results, hole);
  const values = results.logs.filter((log) => log.hole === hole).map(laneOf);
  return [...(grains === null ? [] : [grains]), ...values].sort((a, b) => valuesIn(b) - valuesIn(a));
}

const valuesIn = (lane: Lane): number => (lane.kind === 'grains' ? lane.samples.length : lane.values.length);

/** What else was measured, for a caption. */
export const notDrawn = (lanes: readonly Lane[]): string =>
  lanes.length === 0
    ? ''
    : `Measured and without room here: ${lanes.map(({ property }) => property).join(', ')} (measurements.csv).`;

/** So much of a scale lies beyond its outermost values. */
const MARGIN = 0.04;
/** Values that differ by less than this part of the largest have a scale that does not begin at 0. */
const CLOSE = 0.25;

function laneOf({ property, unit, points: of }: LogResult): ValueLane {
  const numbers = of.flatMap(({ value }) => value ?? []);
  const [least, most] = numbers.length === 0 ? [0, 1] : [Math.min(...numbers), Math.max(...numbers)];
  // An error bar may widen the scale by a quarter, or as those of more than half of the values do; what is longer is cut off at the edge.
  const bars = of.map(({ sigma }) => 2 * (sigma ?? 0)).sort((a, b) => a - b);
  const usual = bars[Math.floor((bars.length - 1) / 2)] ?? 0;
  const reach = (end: number, sign: 1 | -1): number => {
    const ends = of.flatMap(({ value, sigma }) => (value === null ? [] : value + sign * 2 * (sigma ?? 0)));
    const wide = sign * Math.max(...ends.map((x) => sign * x), sign * end);
    const limit = end + sign * Math.max((most - least) / 4, 0.025 * Math.abs(end), usual);
    return sign > 0 ? Math.min(wide, limit) : Math.max(wide, limit);
  };
  const top = reach(most, 1);
  const fromZero = least >= 0 && (least === most || most - least >= CLOSE * most);
  const bottom = fromZero ? 0 : reach(least, -1);
  const margin = MARGIN * (top - bottom || Math.abs(top) || 1);
  const low = fromZero ? 0 : bottom - margin;
  const high = top + margin;
  const part = partOf(Math.max(Math.abs(low), Math.abs(high)));
  return {
    kind: 'values',
    property,
    unit: [part === 1 ? '' : `× ${part < 1 ? part : printed(part, 0)}`, unit ?? ''].filter(Boolean).join(' '),
    low: low / part,
    high: high / part,
    values: of
      .map(({ trace, depth_m, thickness_m, value, sigma, qualifier }) => ({
        trace,
        depth_m: depth_m.value,
        lower95_m: depth_m.lower95,
        upper95_m: depth_m.upper95,
        thickness_m: thickness_m ?? 0,
        value: qualifier === 'not_determined' || value === null ? null : value / part,
        two_sigma: sigma === null ? null : (2 * sigma) / part,
        limit: qualifier === 'less_than' || qualifier === 'greater_than' ? qualifier : null,
      }))
      .sort((a, b) => a.depth_m - b.depth_m),
  };
}

/** The power of a thousand a lane's numbers are counted in: 1 but for those too small or too large to be written short. */
function partOf(largest: number): number {
  let part = 1;
  while (largest > 0 && largest / part < 0.1) part /= 1000;
  while (largest / part >= 100_000) part *= 1000;
  return part;
}
