/**
 * From cores to claims on the sea: pieces are taken where the plan wants them or as near as something came up, their
 * true ages follow from the true sea, the invented laboratory dates them, and the crew says what each means. Long
 * because a sample is followed from the core to its point in one place.
 */
import type { RandomStream } from '@stillstand/science/base';
import type { YearlyCurve } from '@stillstand/science/dating';
import { type Core, depthInCore, placeInCore } from './core.ts';
import { measured, withModern } from './radiocarbon.ts';
import { LATER_SAMPLES, SAMPLES, type SamplePlan } from './samples.ts';
import { MEASURED_CE, type MeasuredSand, measureSand, writeDoses } from './sand-doses.ts';
import { ageOfRisingLevel, TRUE_TIDE_M, trueLevel } from './sea.ts';
import { baseOf, drawMarshHeight, type Layer, type Place } from './section.ts';
import { centimetres, metres, plain, type Sheets } from './sheet.ts';

/** What is true of a sample; none of it is in the campaign. */
export interface SampleTruth {
  sample: string;
  hole: string;
  /** Below the ground at the start of the hole, metres. */
  depth_m: number;
  /** Today, above true mean sea level, metres. */
  elevation_m: number;
  age_cal_bp: number;
  /** True sea level at that age, metres. */
  level_m: number;
  /** How much compaction has lowered it since, metres. */
  lowering_m: number;
  /** Height above the mean sea level of its time when it formed, metres. */
  tide_m: number;
  /** False for what was washed in from elsewhere: its age says nothing of its layer. */
  is_in_place: boolean;
}

export interface DatingContext {
  cores: readonly Core[];
  /** The place each hole stands at. */
  places: ReadonlyMap<string, Place>;
  shcal20: YearlyCurve;
  marine20: YearlyCurve;
  /** True reservoir offset, 14C yr. */
  offset_yr: number;
  /** What the dose rates of all sands are off by together, as a share. */
  dose_rates: number;
}

/** Reservoir offset as the crew states it: mean and 1 sigma, 14C yr. */
export const STATED_OFFSET = { offset_yr: -100, sd_yr: 45, group: 'lagoon shells' } as const;

interface Taken {
  plan: SamplePlan;
  place: Place;
  layer: Layer;
  core: Core;
  /** Within the core, metres. */
  top_m: number;
  bottom_m: number;
  depth_m: number;
  elevation_m: number;
}

export interface DatedSamples {
  samples: SampleTruth[];
  /** Number of the next sample of a hole. */
  nextSample: (hole: string) => string;
  /** Writes the samples taken later, and the doses of all sands; gives the truth of those samples. */
  writeLater: () => SampleTruth[];
}

/** Writes samples, measurements, determinations, points and their errors; gives the truth of each sample. */
export function dateAndClaim(context: DatingContext, sheets: Sheets, stream: RandomStream): DatedSamples {
  const taken = [...SAMPLES, ...LATER_SAMPLES].map((plan) => take(plan, context)).filter((t) => t !== null);
  const random = stream.split('samples');
  const own = taken.map((t, i) => random.split(`${t.plan.hole} ${i}`));
  const lowering = new Map<string, number>();
  taken.forEach(({ plan }) => {
    // Samples of one layer sank together.
    const key = `${plan.hole} ${plan.layer}`;
    if (plan.lowering_m !== undefined && !lowering.has(key)) {
      lowering.set(key, plan.lowering_m * Math.min(2, Math.abs(random.split(`${key} lowering`).normal())));
    }
  });
  const lowered = ({ plan }: Taken) => lowering.get(`${plan.hole} ${plan.layer}`) ?? 0;
  const ages = trueAges(taken, own, lowered);

  const counts = new Map<string, number>();
  const nextSample = (hole: string): string => {
    const count = (counts.get(hole) ?? 0) + 1;
    counts.set(hole, count);
    return `${hole}-${String(count).padStart(2, '0')}`;
  };
  let code = 2400;
  const nextCode = (): string => {
    code += 3 + random.integer(4);
    return `INV-${code}`;
  };
  const sands: MeasuredSand[] = [];
  const write = (t: Taken, i: number): SampleTruth => {
    const { plan } = t;
    const sample = nextSample(plan.hole);
    writeSample(t, sample, sheets, own[i]!);
    const age_cal_bp = ages[i]!;
    const results = writeResults(t, sample, age_cal_bp, { ...context, nextCode, sands }, sheets, own[i]!);
    if (plan.claim !== 'none' && plan.dated !== 'none') writePoint(t, sample, results, sheets);
    const lowering_m = lowered(t);
    const level_m = trueLevel(age_cal_bp);
    return {
      sample,
      hole: plan.hole,
      depth_m: t.depth_m,
      elevation_m: t.elevation_m,
      age_cal_bp,
      level_m,
      lowering_m,
      tide_m: t.elevation_m + lowering_m - level_m,
      is_in_place: inPlace(plan),
    };
  };
  const isLater = ({ plan }: Taken) => LATER_SAMPLES.includes(plan);
  return {
    samples: taken.flatMap((t, i) => (isLater(t) ? [] : [write(t, i)])),
    nextSample,
    writeLater: () => {
      const later = taken.flatMap((t, i) => (isLater(t) ? [write(t, i)] : []));
      writeDoses(sands, sheets);
      return later;
    },
  };
}

/** Half the thickness of a sample, metres. */
const HALF_M = 0.01;

/** The piece the plan wants, or the nearest of its layer that came up; null where nothing did. */
function take(plan: SamplePlan, { cores, places }: DatingContext): Taken | null {
  const place = places.get(plan.hole)!;
  const layer = place.layers.find((l) => l.key === plan.layer);
  if (layer === undefined) throw new RangeError(`sample plan: no layer ${plan.layer} at ${place.place}`);
  const base_m = baseOf(place, layer);
  const wanted =
    plan.at === 'base'
      ? base_m + 0.015
      : plan.at === 'top'
        ? layer.top_m - 0.015
        : base_m + plan.at * (layer.top_m - base_m);
  const own = cores.filter((core) => core.hole === plan.hole);
  for (let step = 0; step < 400; step++) {
    for (const side of step === 0 ? [1] : [1, -1]) {
      const height_m = wanted + side * step * 0.005;
      if (height_m > layer.top_m - 0.01 || height_m < base_m + 0.01) continue;
      for (const core of own) {
        const middle = placeInCore(core, place.ground_m - height_m);
        if (middle === null) continue;
        const top_m = Math.round((middle - HALF_M) * 200) / 200;
        const depth_m = depthInCore(core, top_m + HALF_M);
        if (top_m < 0 || depth_m === null || depthInCore(core, top_m + 2 * HALF_M) === null) continue;
        const elevation_m = place.ground_m - depth_m;
        if (elevation_m > layer.top_m || elevation_m < base_m) continue;
        return { plan, place, layer, core, top_m, bottom_m: top_m + 2 * HALF_M, depth_m, elevation_m };
      }
    }
  }
  return null;
}

/** True ages: peats from the sea first, then shells and land between them, so that each hole is in order. */
function trueAges(
  taken: readonly Taken[],
  own: readonly RandomStream[],
  lowered: (t: Taken) => number,
): number[] {
  const ages: (number | null)[] = taken.map(() => null);
  const tide: (number | null)[] = taken.map(() => null);
  const { MHW, HAT } = TRUE_TIDE_M;
  // From the base up: a peat sample's neighbour below grew at nearly the same height of the tide.
  for (let i = taken.length - 1; i >= 0; i--) {
    const { plan, elevation_m } = taken[i]!;
    const random = own[i]!;
    const formed_m = elevation_m + lowered(taken[i]!);
    if (plan.age.from === 'contact') ages[i] = plan.age.age_cal_bp;
    if (plan.age.from === 'between' && plan.claim === 'index' && plan.rejected_point === undefined) {
      ages[i] = ageBetween(plan.age.oldest, plan.age.youngest, formed_m, random);
    }
    if (plan.age.from === 'between' && ages[i] === null) {
      ages[i] = plan.age.youngest + random.uniform() * (plan.age.oldest - plan.age.youngest);
    }
    if (plan.age.from === 'sea' && plan.claim === 'index') {
      const below = taken[i + 1];
      const same = below?.plan.hole === plan.hole && below.plan.layer === plan.layer ? tide[i + 1] : null;
      let height = drawMarshHeight(random);
      if (same !== null && same !== undefined) {
        height = reflected(same + 0.1 * random.normal(), MHW, HAT);
        const rise_m = elevation_m - below!.elevation_m;
        if (height > same + rise_m - 0.05) height = Math.max(MHW, same - 0.05);
      }
      const age = ageOfRisingLevel(formed_m - height);
      if (age === null) throw new RangeError(`${plan.hole} ${plan.layer}: the sea never stood there`);
      ages[i] = age;
      tide[i] = height;
    }
  }
  taken.forEach(({ plan, elevation_m }, i) => {
    if (plan.age.from !== 'sea' || plan.claim !== 'marine') return;
    const hole = (k: number) => taken[k]!.plan.hole === plan.hole && inPlace(taken[k]!.plan);
    let older = 9300;
    let younger = 5600;
    taken.forEach((t, k) => {
      const age = ages[k];
      if (!hole(k) || age === null || age === undefined) return;
      if (t.elevation_m < elevation_m) older = Math.min(older, age - 40);
      else if (t.elevation_m > elevation_m) younger = Math.max(younger, age + 40);
    });
    // Living 0.3 to 2.2 m below mean tide, and between its neighbours in age.
    const lowest = Math.max(elevation_m + 0.3, trueLevel(older));
    const highest = Math.min(elevation_m + 2.2, trueLevel(younger));
    const level = lowest + own[i]!.uniform() * Math.max(0, highest - lowest);
    ages[i] = ageOfRisingLevel(Math.min(level, trueLevel(younger))) ?? younger;
  });
  taken.forEach(({ plan }, i) => {
    if (plan.age.from !== 'before next') return;
    let next = 0;
    taken.forEach((t, k) => {
      if (t.plan.hole === plan.hole && t.plan.layer === 'basal peat') next = Math.max(next, ages[k] ?? 0);
    });
    const [least, most] = plan.age.by;
    ages[i] = next + least + own[i]!.uniform() * (most - least);
  });
  return ages.map((age) => age!);
}

/** False for what was washed in from elsewhere: its age says nothing of its neighbours. */
const inPlace = (plan: SamplePlan): boolean =>
  plan.rejected_point === undefined && plan.rejected_result === undefined;

function reflected(x: number, lower: number, upper: number): number {
  if (x < lower) return Math.min(upper, 2 * lower - x);
  return x > upper ? Math.max(lower, 2 * upper - x) : x;
}

/** An age at which a marsh could stand at this height, drawn among all such; else the one that fails least. */
function ageBetween(oldest: number, youngest: number, height_m: number, random: RandomStream): number {
  const fitting: number[] = [];
  let nearest = oldest;
  let least = Number.POSITIVE_INFINITY;
  for (let age = youngest; age <= oldest; age += 5) {
    const tide = height_m - trueLevel(age);
    const off = Math.max(0, TRUE_TIDE_M.MHW - tide, tide - TRUE_TIDE_M.HAT);
    if (off === 0) fitting.push(age);
    if (off < least) [least, nearest] = [off, age];
  }
  return fitting.length === 0 ? nearest : fitting[random.integer(fitting.length)]!;
}

function writeSample(t: Taken, sample: string, sheets: Sheets, random: RandomStream): void {
  const hand = t.core.basis === 'push';
  sheets.write('samples', {
    sample,
    hole: t.plan.hole,
    depth_basis: t.core.basis,
    run: t.core.label,
    top: hand ? `${plain(t.top_m * 100, 1)} cm` : metres(t.top_m, 3),
    bottom: hand ? `${plain(t.bottom_m * 100, 1)} cm` : metres(t.bottom_m, 3),
    material: t.plan.material,
  });
  if (t.layer.sediment === 'peat') {
    sheets.write('measurements', {
      sample,
      property: 'loss on ignition',
      value: plain(38 + 28 * random.uniform(), 1),
      sigma: 1.5,
      unit: '%',
      method: '550 °C, 4 h',
    });
  }
}

/** Gives the codes of the sample's results, the one to use first. */
function writeResults(
  t: Taken,
  sample: string,
  age_cal_bp: number,
  context: DatingContext & { nextCode: () => string; sands: MeasuredSand[] },
  sheets: Sheets,
  random: RandomStream,
): string[] {
  const { plan } = t;
  const { nextCode, sands } = context;
  if (plan.dated === 'none') return [];
  const lab_code = nextCode();
  if (plan.dated === 'sand') {
    const { age, measured } = measureSand(sample, age_cal_bp, context.dose_rates, random);
    sands.push(measured);
    sheets.write('determinations', {
      lab_code,
      sample,
      method: 'luminescence',
      ...age,
      fraction_dated: 'quartz, 180 to 212 micrometres',
      reference_year: MEASURED_CE,
      age_role: 'direct',
      status: 'accepted',
    });
    return [lab_code];
  }
  const shell = plan.dated === 'shell';
  const error = 20 + random.integer(shell ? 16 : 21);
  const value = shell
    ? measured(context.marine20, age_cal_bp, context.offset_yr, error, random)
    : measured(context.shcal20, age_cal_bp, 0, error, random);
  sheets.write('determinations', {
    lab_code,
    sample,
    method: 'radiocarbon',
    value,
    error,
    delta13c_permil: plain(shell ? 0.4 + 0.6 * random.normal() : -27 + 1.1 * random.normal(), 1),
    fraction_dated: shell ? 'whole valve, outer part etched' : 'acid–base–acid residue',
    calibration_curve: shell ? 'marine20' : 'shcal20',
    delta_r: shell ? STATED_OFFSET.offset_yr : undefined,
    delta_r_error: shell ? STATED_OFFSET.sd_yr : undefined,
    delta_r_group: shell ? STATED_OFFSET.group : undefined,
    age_role: 'direct',
    status: plan.rejected_result === undefined ? 'accepted' : 'rejected',
    reason: plan.rejected_result,
  });
  if (plan.rootlets === undefined) return [lab_code];
  const bulk = nextCode();
  sheets.write('determinations', {
    lab_code: bulk,
    sample,
    method: 'radiocarbon',
    value: withModern(measured(context.shcal20, age_cal_bp, 0, 30, random), plan.rootlets),
    error: 30,
    delta13c_permil: plain(-26.4 + 0.8 * random.normal(), 1),
    fraction_dated: 'bulk peat, humic acids',
    calibration_curve: 'shcal20',
    age_role: 'direct',
    status: 'rejected',
    reason: 'bulk with living rootlets: younger than the seeds of the same sample',
  });
  return [lab_code, bulk];
}

const INDICATORS = {
  index: 'high salt-marsh peat',
  terrestrial: 'terrestrial limiting (fresh peat, soil, fluvial)',
  marine: 'marine limiting (subtidal mud, shell, coral)',
} as const;

function writePoint(t: Taken, sample: string, codes: readonly string[], sheets: Sheets): void {
  const { plan } = t;
  if (plan.claim === 'none') return;
  const point = `P-${sample}`;
  const index = plan.claim === 'index';
  sheets.write('points', {
    point,
    sample,
    age_from: 'determination',
    determination: codes.length > 1 ? codes[0] : undefined,
    indicator: INDICATORS[plan.claim],
    kind: plan.claim,
    lower: index ? 'MHW' : plan.claim === 'terrestrial' ? 'MTL' : undefined,
    upper: index ? 'HAT' : plan.claim === 'marine' ? 'MTL' : undefined,
    position: plan.position,
    compressible_below: plan.position === 'intercalated' ? centimetres(softBelow(t)) : undefined,
    status: plan.rejected_point === undefined ? 'accepted' : 'rejected',
    reason: plan.rejected_point,
  });
  if (plan.lowering_m !== undefined) {
    sheets.write('point_errors', {
      point,
      component: 'compaction',
      value_m: plan.lowering_m,
      sigma_level: 1,
      shape: 'one_sided',
      note: 'mud below, of the thickness seen in this hole; judged, not modelled',
    });
  }
}

/** Thickness of mud and peat below a sample down to the drowned land, metres. */
function softBelow(t: Taken): number {
  let soft = 0;
  for (const layer of t.place.layers) {
    if (!/clay|silt|peat/.test(layer.sediment) || layer.key === 'soil') continue;
    const top = Math.min(layer.top_m, t.elevation_m);
    soft += Math.max(0, top - baseOf(t.place, layer));
  }
  return soft;
}
