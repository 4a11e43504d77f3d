/** Which environment truly stood where and when on the invented coast, and the way of the land's edge along the section. */
import { AGED_HOLES, agedContacts, type Knot } from './contact-ages.ts';
import type { SampleTruth } from './dating.ts';
import type { MarshGrowth } from './marsh-growth.ts';
import { ageOfRisingLevel, TRUE_TIDE_M, trueLevel } from './sea.ts';
import { baseOf, layerAt, type Place } from './section.ts';

/** A layer that took time. */
export interface TrueLayer {
  key: string;
  /** Its number from the top of the hole down, as in the description. */
  unit: string;
  environment: string;
  /** From its top to its base; straight between. */
  knots: readonly Knot[];
}

interface TrueColumn {
  hole: string;
  along_m: number;
  ground_m: number;
  /** From the top down, without the lowest, whose base was not reached. */
  layers: readonly TrueLayer[];
}

export interface EnvironmentTruth {
  columns: readonly TrueColumn[];
  /** Null where no layer of the hole is of the age: time missing, above the uppermost and below the lowest. */
  environmentAt(hole: string, age_cal_bp: number): string | null;
  /** Elevation of the layer of that age as it lies today, m; null where there is none. */
  surfaceAt(hole: string, age_cal_bp: number): number | null;
  /**
   * Where the land ended toward the sea, metres landward along the section from the spit's outer side; ∞ where it was
   * landward of all holes, −∞ where it was seaward of all.
   */
  edgeAt(age_cal_bp: number): number;
}

export const topOf = ({ knots }: TrueLayer): number => knots[0]!.age_cal_bp;
export const bottomOf = ({ knots }: TrueLayer): number => knots.at(-1)!.age_cal_bp;

export function ageTheCoast(
  places: ReadonlyMap<string, Place>,
  samples: readonly SampleTruth[],
  marsh: { hole: string; growth: MarshGrowth },
): EnvironmentTruth {
  const columns = AGED_HOLES.map((hole): TrueColumn => {
    const place = places.get(hole)!;
    const layers = agedContacts(hole, place, samples).map(([key, top_cal_bp, base_cal_bp], i): TrueLayer => {
      const layer = place.layers.find((each) => each.key === key)!;
      const [top_m, base_m] = [layer.top_m, baseOf(place, layer)];
      const inside: Knot[] =
        hole === marsh.hole && i === 0
          ? grown(marsh.growth, top_m, base_m)
          : samples
              .filter((s) => s.hole === hole && s.is_in_place && layerAt(place, s.elevation_m) === layer)
              .map(({ elevation_m, age_cal_bp }) => ({ height_m: elevation_m, age_cal_bp }));
      return {
        key,
        unit: String(place.layers.indexOf(layer) + 1),
        environment: layer.environment,
        knots: [
          { height_m: top_m, age_cal_bp: top_cal_bp },
          ...inside.sort((a, b) => b.height_m - a.height_m),
          { height_m: base_m, age_cal_bp: base_cal_bp },
        ],
      };
    });
    return { hole, along_m: place.along_m, ground_m: place.ground_m, layers: inOrder(layers) };
  });
  const of = (hole: string): TrueColumn => columns.find((column) => column.hole === hole)!;
  return {
    columns,
    environmentAt: (hole, age) => layerOfAge(of(hole), age)?.environment ?? null,
    surfaceAt: (hole, age) => surfaceOf(of(hole), age),
    edgeAt: (age) => edgeOf(columns, age),
  };
}

/** Contacts between the ages of the samples above and below, and no older than what lies below: seeds differ. */
function inOrder(layers: readonly TrueLayer[]): TrueLayer[] {
  const isContact = (knots: readonly Knot[], i: number): boolean => i === 0 || i === knots.length - 1;
  const samples = layers.flatMap(({ knots }) => knots.filter((_, i) => !isContact(knots, i)));
  let below = Number.POSITIVE_INFINITY;
  return [...layers]
    .reverse()
    .map((layer): TrueLayer => {
      const knots = [...layer.knots].reverse().map((knot, i, all): Knot => {
        const { height_m } = knot;
        const youngest = Math.max(...samples.filter((s) => s.height_m > height_m).map((s) => s.age_cal_bp));
        const age = isContact(all, i) ? Math.max(knot.age_cal_bp, youngest) : knot.age_cal_bp;
        below = Math.min(age, below);
        return { height_m, age_cal_bp: below };
      });
      return { ...layer, knots: knots.reverse() };
    })
    .reverse();
}

/** Parts of the marsh's uppermost peat. */
const PARTS = 20;
const grown = (growth: MarshGrowth, top_m: number, base_m: number): Knot[] =>
  Array.from({ length: PARTS - 1 }, (_, i) => {
    const depth_m = ((top_m - base_m) * (i + 1)) / PARTS;
    return { height_m: top_m - depth_m, age_cal_bp: growth.age_cal_bp(depth_m) };
  });

const layerOfAge = ({ layers }: TrueColumn, age: number): TrueLayer | undefined =>
  layers.find((layer) => topOf(layer) <= age && age < bottomOf(layer));

function surfaceOf(column: TrueColumn, age: number): number | null {
  const knots = layerOfAge(column, age)?.knots;
  if (knots === undefined) return null;
  const below = knots.findIndex(({ age_cal_bp }) => age_cal_bp > age);
  const [young, old] = [knots[below - 1]!, knots[below]!];
  const part = (age - young.age_cal_bp) / (old.age_cal_bp - young.age_cal_bp);
  return young.height_m + part * (old.height_m - young.height_m);
}

/** Turf has not come to the outer marsh: it would where the ground stood so far above it, m (invented). */
const NOT_YET_M = 0.1;

/**
 * While the sea rose, the edge was where peat began: the old land is straight from hole to hole, and so is the height above
 * the sea at which peat began. When the sea fell it came back over the marsh, where the ground, straight between two
 * holes, was as high above the sea as turf begins, straight too.
 */
function edgeOf(columns: readonly TrueColumn[], age: number): number {
  const land = columns.map((column) => {
    const { height_m, age_cal_bp } = column.layers.find(({ key }) => key === 'soil')!.knots[0]!;
    return {
      along_m: column.along_m,
      began_cal_bp: age_cal_bp,
      height_m,
      tide_m: height_m - trueLevel(age_cal_bp),
    };
  });
  if (age >= land[0]!.began_cal_bp) return Number.NEGATIVE_INFINITY;
  for (const [i, outer] of land.entries()) {
    const inner = land[i + 1];
    if (inner === undefined || age < inner.began_cal_bp) continue;
    // Along a straight line the age of covering falls landward.
    let [from, to] = [0, 1];
    while (to - from > 1e-9) {
      const part = (from + to) / 2;
      const at = (a: number, b: number): number => a + part * (b - a);
      const covered = ageOfRisingLevel(at(outer.height_m, inner.height_m) - at(outer.tide_m, inner.tide_m));
      if (covered !== null && covered > age) from = part;
      else to = part;
    }
    return outer.along_m + from * (inner.along_m - outer.along_m);
  }
  return comingBack(columns, age);
}

function comingBack(columns: readonly TrueColumn[], age: number): number {
  const [outer, middle, inner] = columns.slice(-3) as [TrueColumn, TrueColumn, TrueColumn];
  const turned = ({ layers }: TrueColumn): number => bottomOf(layers[0]!);
  const between = (from: TrueColumn, to: TrueColumn, beginsAt_m: number): number => {
    const above = (column: TrueColumn): number => surfaceOf(column, age)! - trueLevel(age);
    const [a, b] = [above(from) - TRUE_TIDE_M.MHWS, above(to) - beginsAt_m];
    const part = Math.min(1, Math.max(0, a / (a - b)));
    return from.along_m + part * (to.along_m - from.along_m);
  };
  if (age >= turned(inner)) return Number.POSITIVE_INFINITY;
  if (age >= turned(middle)) return between(inner, middle, TRUE_TIDE_M.MHWS);
  return between(middle, outer, outer.ground_m + NOT_YET_M);
}
