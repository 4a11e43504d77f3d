/**
 * Joint draws of the ages of a simulated coast, without a chain: true ages plus one error, less another of the same kind by
 * draw, which is exactly what is known of an age whose measured value is off by an error of known size. An error is a normal
 * function of age, smooth over five times its size, so that the ages of a hole stay in order.
 */
import { exp, type RandomStream, square } from '@stillstand/science/base';
import type { AgedColumn, AgedLayer } from '@stillstand/science/environments';
import { type Coast, type CoastLayer, OLDEST } from './simulated-coast.ts';

export interface AgeSettings {
  draws: number;
  /** 1 sigma of the ages of a hole, yr: even between these, hole by hole. */
  sigma_yr: readonly [number, number];
  /** 1 sigma of an error of all ages of all holes, yr. */
  shared_yr?: number;
  /** Whether draw k of each hole has the same shared error, or they are paired at random. */
  isPaired?: boolean;
  /** All ages of one hole in the middle are off by this, which no draw knows, yr. */
  one_off_yr?: number;
  /** Share of the layers that have another name. */
  misnamed?: number;
}

/** 1 sigma of the height of the ground, m. */
const GROUND_SIGMA_M = 0.03;
const SMOOTH = 5;

/** A smooth normal error at these ages: white noise under a kernel, of variance 1. */
function errorsAt(ages: readonly number[], over_yr: number): (random: RandomStream) => Float64Array {
  const nodes = Array.from({ length: Math.ceil((OLDEST * 1.2) / over_yr) + 6 }, (_, j) => (j - 3) * over_yr);
  const weights = ages.map((age) => {
    const raw = nodes.map((node) => exp(-square((age - node) / over_yr)));
    const size = Math.sqrt(raw.reduce((sum, each) => sum + square(each), 0));
    return raw.map((each) => each / size);
  });
  return (random) => {
    const noise = nodes.map(() => random.normal());
    return Float64Array.from(weights, (each) => each.reduce((sum, w, j) => sum + w * noise[j]!, 0));
  };
}

const NAMES = ['land', 'marsh', 'flat', 'lagoon'] as const;

/** One hole each, in the order of the line. */
export function agedCoast({ holes }: Coast, settings: AgeSettings, random: RandomStream): AgedColumn[] {
  const { draws, sigma_yr, shared_yr = 0, isPaired = true, one_off_yr = 0, misnamed = 0 } = settings;
  const shared = random.split('shared');
  const sharedError = shared_yr * shared.normal();
  const sharedDraws = Float64Array.from({ length: draws }, () => shared_yr * shared.normal());
  return holes.map(({ along_m, ground_m, layers }, h): AgedColumn => {
    const own = random.split(h);
    const sigma = sigma_yr[0] + (sigma_yr[1] - sigma_yr[0]) * own.uniform();
    const ages = [...new Set(layers.flatMap(({ knots }) => knots.map(({ age }) => age)))].sort(
      (a, b) => a - b,
    );
    const place = new Map(ages.map((age, i) => [age, i]));
    const error = errorsAt(ages, SMOOTH * sigma);
    const measured = error(own.split('measured'));
    const off = sharedError + (h === holes.length >> 1 ? one_off_yr : 0);
    const drawn = ages.map(() => new Float64Array(draws));
    const errors = own.split('draws');
    const order = own.split('pairing');
    for (let k = 0; k < draws; k++) {
      const each = error(errors);
      const lessShared = sharedDraws[isPaired ? k : order.integer(draws)]!;
      let youngest = Number.NEGATIVE_INFINITY;
      for (const [i, age] of ages.entries()) {
        // Smooth errors hardly ever turn an order; where one does, the two are of one age.
        youngest = Math.max(youngest, age + off + sigma * (measured[i]! - each[i]!) - lessShared);
        drawn[i]![k] = youngest;
      }
    }
    const groundError = GROUND_SIGMA_M * own.normal();
    const names = own.split('names');
    return {
      hole: `H${h}`,
      along_m,
      ground_m: Float64Array.from(
        { length: draws },
        () => ground_m + groundError - GROUND_SIGMA_M * own.normal(),
      ),
      layers: layers.map(
        (layer, i): AgedLayer => ({
          id: `${i}`,
          environment: nameOf(layer, misnamed, names),
          isAtOnce: layer.isAtOnce,
          levels: layer.knots.map(({ height_m, age }) => ({
            depth_m: new Float64Array(draws).fill(ground_m - height_m),
            age_cal_bp: drawn[place.get(age)!]!,
          })),
        }),
      ),
    };
  });
}

function nameOf({ environment, isAtOnce }: CoastLayer, misnamed: number, random: RandomStream): string {
  if (isAtOnce || random.uniform() >= misnamed) return environment;
  const others = NAMES.filter((name) => name !== environment);
  return others[random.integer(others.length)]!;
}
