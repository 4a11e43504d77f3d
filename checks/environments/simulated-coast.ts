/**
 * Coasts of known truth: an old land surface, bent and rough, that a sea rising at a varying rate covers, from time to time
 * falls back from, and that mud, marsh, storms and the sea's cutting build and lower. Forward in steps of ten years on a
 * line of cells; three to eight holes keep what was laid down and not removed. Shares no number with the method. Metres,
 * along the line from the sea to the land; ages in yr before the end. All numbers are invented.
 */
import { cos, exp, log, type RandomStream } from '@stillstand/science/base';

type Environment = 'land' | 'marsh' | 'flat' | 'lagoon';

export interface CoastLayer {
  environment: Environment | 'washover';
  isAtOnce: boolean;
  /** From its top to its base: height and true age. */
  knots: readonly { height_m: number; age: number }[];
}

export interface CoastHole {
  along_m: number;
  ground_m: number;
  /** From the top down. */
  layers: readonly CoastLayer[];
  /** What truly was there from step to step, laid down or not, the oldest first. */
  environments: readonly Environment[];
}

export interface Coast {
  holes: readonly CoastHole[];
  /** Ages of the steps, the oldest first. */
  ages: readonly number[];
  /** At each step where the land ended toward the sea: ∞ landward of all holes, −∞ seaward of all. */
  edge_m: readonly number[];
  level_m: readonly number[];
}

export interface CoastSettings {
  /** The sea stands still for a thousand years, and then rises by one to two metres at once. */
  leaps?: boolean;
}

export const OLDEST = 8000;
export const STEP_YR = 10;
const CELL_M = 5;
/** Marsh and land meet so high above the sea; marsh, flat and lagoon so far below that. */
const LAND_M = 1;
const FLAT_BELOW_M = 0.6;
const LAGOON_BELOW_M = 1.8;
/** What is laid down in any environment, mm/yr; a marsh grows up to within so little of its limit, m. */
const LEAST_MM_YR = 0.03;
const SHORT_M = 0.05;
/** What stood for less is not seen in a core, yr. */
const SEEN_YR = 30;
/** Places of a layer with an age of their own are no farther apart, m. */
const APART_M = 0.5;

const between = (random: RandomStream, least: number, most: number): number =>
  least + (most - least) * random.uniform();

/** Level at each step, 0 at the end. */
function seaOf({ leaps = false }: CoastSettings, ages: readonly number[], random: RandomStream): number[] {
  const [first, slows, swings, period, phase] = [
    between(random, 3, 8),
    between(random, 1500, 3000),
    between(random, 0.5, 2.5),
    between(random, 1000, 2500),
    between(random, 0, 6.28),
  ];
  const leap_m = between(random, 1, 2);
  let level = 0;
  const levels = ages.map((age) => {
    const rate = leaps
      ? 0.05
      : first * exp(-(OLDEST - age) / slows) + swings * cos((6.2832 * age) / period + phase);
    level += (rate * STEP_YR) / 1000 + (leaps && age % 1500 === 1000 ? leap_m : 0);
    return level;
  });
  return levels.map((each) => each - level);
}

/** Height of the old land in each cell. */
function landOf(cells: number, level: readonly number[], random: RandomStream): number[] {
  const low = level[0]! + between(random, -1, 1.5);
  const high = Math.max(...level) + between(random, 0, 1.6);
  const bend = between(random, 0.6, 1.8);
  const waves = Array.from({ length: 6 }, () => ({
    height_m: between(random, 0, 0.25),
    length_m: between(random, 40, 250),
    phase: between(random, 0, 6.28),
  }));
  return Array.from({ length: cells }, (_, i) => {
    const rough = waves.map((w) => w.height_m * cos((6.2832 * i * CELL_M) / w.length_m + w.phase));
    return (
      low + (high - low) * exp(bend * log((i + 0.5) / cells)) + rough.reduce((sum, each) => sum + each, 0)
    );
  });
}

interface Entry {
  environment: Environment | 'washover';
  top_m: number;
  base_m: number;
  top_age: number;
  base_age: number;
}

export function simulatedCoast(settings: CoastSettings, random: RandomStream): Coast {
  const ages = Array.from({ length: OLDEST / STEP_YR }, (_, i) => OLDEST - STEP_YR * (i + 1));
  const level_m = seaOf(settings, ages, random.split('sea'));
  const cells = 40 + random.integer(120);
  const surface = landOf(cells, level_m, random.split('land'));
  const at = holesAt(cells, 3 + random.integer(6), random.split('holes'));
  const grows = {
    land: 0.05,
    marsh: between(random, 1, 5),
    flat: between(random, 0.5, 4),
    lagoon: between(random, 0.3, 3),
  };
  const entries: Entry[][] = at.map(() => []);
  const environments: Environment[][] = at.map(() => []);
  const storms = random.split('storms');
  const edge_m = ages.map((age, n): number => {
    const level = level_m[n]!;
    const was = surface.map((each) => environmentAt(each, level));
    const hasStorm = storms.uniform() < STEP_YR / 1200;
    const sand = { to: between(storms, 0.2, 1) * cells, thickness_m: between(storms, 0.1, 0.6) };
    for (let i = 0; i < cells; i++) {
      const environment = was[i]!;
      const below = level + LAND_M - surface[i]!;
      const room = environment === 'land' ? 1 : Math.max(0, below - SHORT_M);
      const grown =
        Math.max(LEAST_MM_YR, Math.min(grows[environment], (1000 * room) / STEP_YR)) * STEP_YR * 1e-3;
      const hole = at.indexOf(i);
      const lay = (of: Entry['environment'], thickness_m: number, older: number): void => {
        const base_m = surface[i]!;
        surface[i] = base_m + thickness_m;
        if (hole !== -1)
          entries[hole]!.push({ environment: of, base_m, top_m: surface[i]!, base_age: older, top_age: age });
      };
      lay(environment, grown, age + STEP_YR);
      if (hasStorm && environment !== 'land' && i < sand.to)
        lay('washover', sand.thickness_m * (1 - i / sand.to) + 0.02, age);
    }
    for (const [h, cell] of at.entries()) {
      environments[h]!.push(was[cell]!);
      if (was[cell] !== 'land' && storms.uniform() < STEP_YR / 4000)
        surface[cell] = cut(entries[h]!, surface[cell]! - between(storms, 0.05, 0.5));
    }
    return edgeOf(was, at);
  });
  const holes = at.map((cell, h) => ({
    along_m: (cell + 0.5) * CELL_M,
    ground_m: surface[cell]!,
    layers: layersOf(entries[h]!),
    environments: environments[h]!,
  }));
  return { holes, ages, edge_m, level_m };
}

function environmentAt(surface: number, level: number): Environment {
  const below = level + LAND_M - surface;
  if (below <= 0) return 'land';
  if (below < FLAT_BELOW_M) return 'marsh';
  return below < LAGOON_BELOW_M ? 'flat' : 'lagoon';
}

/** Cells in order, no nearer than 15 m. */
function holesAt(cells: number, count: number, random: RandomStream): number[] {
  const at: number[] = [];
  while (at.length < count) {
    const cell = random.integer(cells);
    if (at.every((other) => Math.abs(other - cell) >= 3)) at.push(cell);
  }
  return at.sort((a, b) => a - b);
}

function edgeOf(was: readonly Environment[], at: readonly number[]): number {
  const [outermost, innermost] = [at[0]!, at.at(-1)!];
  if (was[innermost] !== 'land') return Infinity;
  let cell = innermost;
  while (cell >= outermost && was[cell] === 'land') cell -= 1;
  return cell < outermost ? -Infinity : (cell + 1) * CELL_M;
}

/** Removes what lies above a height; gives the height that is left. */
function cut(entries: Entry[], height_m: number): number {
  while (entries.length > 1 && entries.at(-1)!.base_m >= height_m) entries.pop();
  const last = entries.at(-1)!;
  if (last.top_m <= height_m) return last.top_m;
  const part = Math.max(0.01, (height_m - last.base_m) / (last.top_m - last.base_m));
  last.top_m = last.base_m + part * (last.top_m - last.base_m);
  last.top_age = last.base_age + part * (last.top_age - last.base_age);
  return last.top_m;
}

/** From the top down. */
function layersOf(entries: readonly Entry[]): CoastLayer[] {
  const runs: Entry[][] = [];
  for (const entry of entries) {
    const below = runs.at(-1)?.at(-1);
    const goesOn =
      below !== undefined &&
      entry.environment !== 'washover' &&
      below.environment === entry.environment &&
      below.top_age === entry.base_age;
    if (goesOn) runs.at(-1)!.push(entry);
    else runs.push([entry]);
  }
  const isSeen = (run: readonly Entry[]): boolean =>
    run[0]!.environment === 'washover' || run[0]!.base_age - run.at(-1)!.top_age >= SEEN_YR;
  return runs
    .filter(isSeen)
    .map((run): CoastLayer => {
      const knots = [{ height_m: run[0]!.base_m, age: run[0]!.base_age }];
      for (const { top_m, top_age } of run)
        if (top_m - knots[0]!.height_m > APART_M) knots.unshift({ height_m: top_m, age: top_age });
      const { top_m, top_age } = run.at(-1)!;
      if (knots[0]!.age !== top_age || knots.length === 1) knots.unshift({ height_m: top_m, age: top_age });
      return { environment: run[0]!.environment, isAtOnce: run[0]!.environment === 'washover', knots };
    })
    .reverse();
}
