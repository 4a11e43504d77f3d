/** Holes as `science/environments` asks for them: layers with the joint draws of their places. */
import type { HoleHistory, HoleResult } from '@stillstand/campaign/results';
import { sameName } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import type { AgedColumn, Level } from '@stillstand/science/environments';

/** The same whatever the campaign's seed: what the seed changes is in the histories, and the draws here only go with them. */
export const STREAM = randomStream(1).split('environments');

/** A hole with what is said of its layers: what its ages do not depend on. */
export interface HoleInTime {
  hole: string;
  along_m: number;
  ground: { value: number; sigma: number };
  /** By the identity of their first row. */
  layers: readonly { unit_row_id: string; environment: string | null; isAtOnce: boolean }[];
}

/**
 * So many draws of every hole, evenly from the rows of its history: as many as the longest histories have, so that a hole says
 * the same by itself and on a line, and holes whose dates share an error keep it shared.
 */
const DRAWS = 1000;

/** Layers of unknown ages are left out. */
export function agedColumn(
  { hole, along_m, ground, layers }: HoleInTime,
  { levels, draws: joint }: HoleHistory,
): AgedColumn {
  const rows = levels.length === 0 ? 0 : joint.level_age_cal_bp.length / levels.length;
  const column = (of: Float64Array, i: number): Float64Array =>
    Float64Array.from({ length: DRAWS }, (_, k) => of[Math.floor((k * rows) / DRAWS) * levels.length + i]!);
  const random = STREAM.split('ground').split(hole);
  return {
    hole,
    along_m,
    ground_m: Float64Array.from({ length: DRAWS }, () => ground.value + ground.sigma * random.normal()),
    layers: layers.flatMap(({ unit_row_id, environment, isAtOnce }) => {
      const places = levels.flatMap((level, i): Level[] =>
        level.unit_row_id === unit_row_id
          ? [{ depth_m: column(joint.level_depth_m, i), age_cal_bp: column(joint.level_age_cal_bp, i) }]
          : [],
      );
      return places.length < 2 || places.some(({ age_cal_bp }) => age_cal_bp.some(Number.isNaN))
        ? []
        : [{ id: unit_row_id, environment, isAtOnce, levels: places }];
    }),
  };
}

/** Word of the vocabulary for what is not known, and a cell without a word, say nothing. */
const SAYS_NOTHING = new Set(['', 'not known', 'unknown']);

/** By its word, whatever its capitals and blanks, how one is written where it is met first. */
export function spellings(holes: readonly HoleResult[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const { environment } of holes.flatMap(({ units }) => units)) {
    const word = sameName(environment);
    if (!found.has(word)) found.set(word, environment?.trim() ?? '');
  }
  return found;
}

/** Of a hole with a levelled ground. */
export const holeInTime = (
  { hole, units, ground_elevation_m }: HoleResult,
  along_m: number,
  atOnce: ReadonlySet<string>,
  written: ReadonlyMap<string, string>,
): HoleInTime => ({
  hole,
  along_m,
  ground: { value: ground_elevation_m!.value, sigma: ground_elevation_m!.sigma },
  layers: units.map(({ row_id, environment }) => {
    const word = sameName(environment);
    return {
      unit_row_id: row_id,
      environment: SAYS_NOTHING.has(word) ? null : (written.get(word) ?? word),
      isAtOnce: atOnce.has(row_id),
    };
  }),
});

/** Null where nothing is said. */
export const isInside = (environment: string | null, inside: readonly string[]): boolean | null =>
  environment === null ? null : inside.some((word) => sameName(word) === sameName(environment));
