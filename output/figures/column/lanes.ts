/** What a column figure draws, and the lanes it draws it in. */
import type { DateResult, HoleResult, Results, SampleResult, UnitResult } from '@stillstand/campaign/results';
import { type Sediment, sedimentOfUnit } from '@stillstand/output/drawing';
import { chronology } from '../chronology.ts';

/** Lanes from left to right, points. */
export const LANE = {
  elevationStaff: 24,
  runLabel: 58,
  core: 62,
  coreWidth: 8,
  ties: [73, 103],
  depthStaff: 123,
  column: 133,
  clayWidth: 38,
  gravelWidth: 68,
  seen: 214,
  sample: 233,
} as const;
export const SEDIMENT_LANE = 112;
/** Room above the ground for heads and scales. */
export const HEAD = 40;

export interface Column {
  hole: HoleResult;
  units: { unit: UnitResult; sediment: Sediment }[];
  samples: SampleResult[];
  dates: { date: DateResult; depth_m: number }[];
  bottom_m: number;
}

export function gather(results: Results, label: string): Column {
  const hole = results.holes.find((h) => h.hole === label);
  if (hole === undefined) {
    throw new RangeError(
      `graphicLog: expected one of ${results.holes.map((h) => h.hole).join(', ')}, found ${label}`,
    );
  }
  const units = hole.units
    .map((unit) => ({ unit, sediment: sedimentOfUnit(unit) }))
    .sort((a, b) => a.unit.depth_top_m.value - b.unit.depth_top_m.value);
  const samples = results.samples
    .filter((s) => s.hole === label && s.depth_m !== null)
    .sort((a, b) => a.depth_m!.value - b.depth_m!.value);
  const dates = chronology(results, samples);
  const bottom_m = Math.max(
    0.1,
    hole.penetration_m ?? 0,
    ...hole.units.map((u) => u.depth_bottom_m.value),
    ...hole.runs.map((r) => r.depth_bottom_m.value),
    ...samples.map((s) => s.depth_m!.value),
    ...results.measurements.flatMap((m) => (m.hole === label && m.depth_m !== null ? m.depth_m.value : [])),
  );
  return { hole, units, samples, dates, bottom_m };
}

export const grainWidth = (grain: number): number =>
  LANE.clayWidth + ((LANE.gravelWidth - LANE.clayWidth) * grain) / 5;
