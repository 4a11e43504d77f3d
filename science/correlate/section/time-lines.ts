/** Lines of one age from hole to hole. */
import type { Point } from './shape.ts';

export interface AgedHole {
  hole: string;
  along_m: number;
  ages: readonly { age_cal_bp: number; elevation_m: number }[];
}

export interface TimeLine {
  age_cal_bp: number;
  line: Point[];
}

/**
 * Between dated levels of a hole an age lies at a straight line; above the highest and below the lowest it is not known.
 * Ages that reverse with depth are pooled until they do not. A line goes on from a hole only to its neighbour, straight,
 * and stops where the age is not known; a line of one hole alone is none.
 */
export function timeLines(holes: readonly AgedHole[], ages_cal_bp: readonly number[]): TimeLine[] {
  const sorted = [...holes]
    .sort((a, b) => a.along_m - b.along_m)
    .map((hole) => ({ ...hole, ages: pooled(hole.ages) }));
  return ages_cal_bp.flatMap((age_cal_bp) => {
    const runs: Point[][] = [[]];
    for (const { along_m, ages } of sorted) {
      const elevation_m = elevationOf(ages, age_cal_bp);
      if (elevation_m !== null) runs.at(-1)!.push([along_m, elevation_m]);
      else if (runs.at(-1)!.length > 0) runs.push([]);
    }
    return runs.filter((line) => line.length > 1).map((line) => ({ age_cal_bp, line }));
  });
}

type Aged = AgedHole['ages'][number];

/** From the top down, ages not falling: neighbours that do are set to their mean (pool adjacent violators). */
function pooled(ages: readonly Aged[]): Aged[] {
  const blocks: { sum: number; of: number[] }[] = [];
  const known = ages.filter((a) => Number.isFinite(a.age_cal_bp) && Number.isFinite(a.elevation_m));
  for (const { age_cal_bp, elevation_m } of known.sort((a, b) => b.elevation_m - a.elevation_m)) {
    let block = { sum: age_cal_bp, of: [elevation_m] };
    for (let above = blocks.at(-1); above !== undefined && mean(above) > mean(block); above = blocks.at(-1)) {
      blocks.pop();
      block = { sum: above.sum + block.sum, of: [...above.of, ...block.of] };
    }
    blocks.push(block);
  }
  return blocks.flatMap((block) => block.of.map((elevation_m) => ({ age_cal_bp: mean(block), elevation_m })));
}
const mean = ({ sum, of }: { sum: number; of: number[] }): number => sum / of.length;

/** Of several levels of that age the middle. */
function elevationOf(ages: readonly Aged[], age_cal_bp: number): number | null {
  const same = ages.filter((each) => each.age_cal_bp === age_cal_bp).map(({ elevation_m }) => elevation_m);
  if (same.length > 0) return (Math.max(...same) + Math.min(...same)) / 2;
  const below = ages.findIndex((each) => each.age_cal_bp > age_cal_bp);
  if (below < 1) return null;
  const [young, old] = [ages[below - 1]!, ages[below]!];
  const share = (age_cal_bp - young.age_cal_bp) / (old.age_cal_bp - young.age_cal_bp);
  return young.elevation_m + share * (old.elevation_m - young.elevation_m);
}
