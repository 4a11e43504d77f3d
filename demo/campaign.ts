/**
 * The whole invented campaign, made forward from its truth: coast, survey, drilling, coring, samples, laboratory. Past
 * 250 lines because it is the list of what the crew carried, where they drilled and what they wrote down.
 */
import { type RandomStream, randomStream } from '@stillstand/science/base';
import type { YearlyCurve } from '@stillstand/science/dating';
import type { Core } from './core.ts';
import { dateAndClaim, type SampleTruth, STATED_OFFSET } from './dating.ts';
import { type DrilledHole, drillString, type StringPlan } from './drilling.ts';
import { ageTheCoast, type EnvironmentTruth } from './environments.ts';
import { coreByHand } from './hand-coring.ts';
import { type LaboratoryTruth, measureSlices } from './laboratory.ts';
import { levelLoop } from './levelling.ts';
import type { MarshGrowth } from './marsh-growth.ts';
import { sampleMarshTop } from './marsh-top.ts';
import { MAKEUP_LOSS_TYPED, pipe, SHOE } from './pipe.ts';
import { SHARED_DOSE_ERROR } from './sand-doses.ts';
import { TRUE_CONSTANTS, TRUE_TIDE_M } from './sea.ts';
import { layTheCoast, type Place, position } from './section.ts';
import { writeSectionLine } from './section-line.ts';
import { type Cells, emptySheets, plain, type Sheets, tick } from './sheet.ts';

/** What the crew could not know of their own numbers; all as stated minus true, metres, but the offset. */
export interface HiddenErrors {
  benchmark_m: number;
  datum_shift_m: number;
  tide_levels_m: number;
  /** True reservoir offset of the lagoon's shells, 14C yr. */
  reservoir_offset_yr: number;
  /** Dose rates of all sands, as a share of the true ones. */
  dose_rates: number;
}

export interface HoleTruth {
  hole: string;
  ground_m: number;
  penetration_m: number;
  /** Of the true shortening; null where the corer does not shorten. */
  recovery_at_ground: number | null;
  shortening_length_m: number | null;
}

export interface MadeCampaign {
  name: string;
  sheets: Sheets;
  hidden: HiddenErrors;
  holes: HoleTruth[];
  samples: SampleTruth[];
  environments: EnvironmentTruth;
  marsh: { hole: string; growth: MarshGrowth };
  drilled: ReadonlyMap<string, DrilledHole>;
  cores: Core[];
  laboratory: LaboratoryTruth[];
}

export interface DemoCurves {
  shcal20: YearlyCurve;
  marine20: YearlyCurve;
}

const CAMPAIGN_NAME = 'Tessarn Spit';

/** Bench mark on the old land: elevation on the local datum as stated, metres. */
const BENCHMARK = { name: 'TBM 1', elevation_m: 5.312, sigma_m: 0.06 };
/** Mean sea level = local datum + this. */
const SHIFT = { shift_m: -0.742, sigma_m: 0.05 };
const TIDE_SIGMA_M = 0.05;

const HOLE_NAMES = ['T1', 'T2', 'T3', 'M1', 'M2', 'M3'] as const;
type HoleName = (typeof HOLE_NAMES)[number];
/** Place of each hole on the section, and how far its reference peg stands out of the ground, metres. */
const HOLES: Record<HoleName, { place: number; peg_m: number; aside_m: number }> = {
  T1: { place: 0, peg_m: 0.24, aside_m: -2.4 },
  T2: { place: 0, peg_m: 0.31, aside_m: 0 },
  T3: { place: 1, peg_m: 0.27, aside_m: 4 },
  M1: { place: 2, peg_m: 0.42, aside_m: -6 },
  M2: { place: 3, peg_m: 0.38, aside_m: 3 },
  M3: { place: 4, peg_m: 0.2, aside_m: -2 },
};

/** The boat must float off the landing; when it floats to the night, the hour is that of the last light. */
const ACCESS = {
  access: 'boat',
  access_level_m: '-0.80',
  access_margin_m: '0.30',
  access_minutes: '20',
} as const;
const DAYS = [
  { date: '2023-02-06', weather: 'overcast, light wind', leave_by: '15:40' },
  { date: '2023-02-07', weather: 'showers', leave_by: '16:20' },
  { date: '2023-02-08', weather: 'clear, hot', leave_by: '17:00' },
  { date: '2023-02-09', weather: 'strong wind, sand blowing', leave_by: '17:40' },
  { date: '2023-02-10', weather: 'overcast', leave_by: '18:30' },
  { date: '2023-02-11', weather: 'clear', leave_by: '19:30' },
  { date: '2023-02-12', weather: 'clear', leave_by: '20:00' },
  { date: '2023-02-13', weather: 'rain after noon', leave_by: '20:00' },
  { date: '2023-02-14', weather: 'drizzle', leave_by: '20:00' },
] as const;

export function makeCampaign(seed: number, curves: DemoCurves): MadeCampaign {
  const random = randomStream(seed).split('demo');
  const sheets = emptySheets(random.split('ids'));
  const coast = layTheCoast(random.split('coast'));
  const errors = random.split('hidden');
  const hidden: HiddenErrors = {
    benchmark_m: BENCHMARK.sigma_m * errors.split('bench mark').normal(),
    datum_shift_m: SHIFT.sigma_m * errors.split('shift').normal(),
    tide_levels_m: TIDE_SIGMA_M * errors.split('tide').normal(),
    reservoir_offset_yr: STATED_OFFSET.offset_yr + STATED_OFFSET.sd_yr * errors.split('reservoir').normal(),
    dose_rates: SHARED_DOSE_ERROR * errors.split('dose rates').normal(),
  };
  const places = new Map<string, Place>(HOLE_NAMES.map((hole) => [hole, coast[HOLES[hole].place]!]));

  writePlaces(sheets, hidden, random.split('gauge'));
  writeHeights(sheets, coast, hidden, random.split('levelling'));
  const drilled = new Map<string, DrilledHole>();
  for (const plan of stringPlans(coast)) drilled.set(plan.hole, drillString(plan, sheets, random));
  const edge = coast[4]!;
  const hand = coreByHand(
    { hole: 'M3', day: DAYS[8].date, device: 'book 2', target_m: 2, peg_m: HOLES.M3.peg_m },
    sheets,
    random,
  );
  writeHoles(sheets, coast, drilled);
  const cores = [...[...drilled.values()].flatMap((d) => d.cores), ...hand];
  describe(sheets, cores, places);
  const dated = dateAndClaim(
    { cores, places, ...curves, offset_yr: hidden.reservoir_offset_yr, dose_rates: hidden.dose_rates },
    sheets,
    random,
  );
  writeTies(sheets);
  writeDays(sheets);
  writeSettings(sheets, seed);
  writeConstants(sheets);
  writeStock(sheets, random);
  // What came later is written last, so that the rows before keep their ids.
  const later = dated.writeLater();
  const block = sampleMarshTop(
    {
      hole: 'M1',
      place: places.get('M1')!,
      collected: DAYS[7].date,
      sample: dated.nextSample('M1'),
      lab_code: 'Pollen M1',
    },
    sheets,
    random,
  );

  const laboratory = measureSlices({ hole: 'T3', cores, place: places.get('T3')! }, sheets, random);
  writeLaterTies(sheets);
  writeSectionLine(
    coast,
    hidden.benchmark_m + hidden.datum_shift_m,
    sheets,
    random.split('ground along the section'),
  );

  const holes: HoleTruth[] = [...drilled].map(([hole, d]) => ({
    hole,
    ground_m: places.get(hole)!.ground_m,
    penetration_m: d.penetration_m,
    recovery_at_ground: d.recovery_at_ground,
    shortening_length_m: d.shortening_length_m,
  }));
  holes.push({
    hole: 'M3',
    ground_m: edge.ground_m,
    penetration_m: 2,
    recovery_at_ground: null,
    shortening_length_m: null,
  });
  const samples = [...dated.samples, ...later, block.truth];
  return {
    name: CAMPAIGN_NAME,
    sheets,
    hidden,
    holes,
    samples,
    environments: ageTheCoast(places, samples, { hole: 'M1', growth: block.growth }),
    marsh: { hole: 'M1', growth: block.growth },
    drilled,
    cores,
    laboratory,
  };
}

function writePlaces(sheets: Sheets, hidden: HiddenErrors, random: RandomStream): void {
  sheets.write('sites', { site: 'TS', name: 'Tessarn Spit and Quenlo Marsh', ...position(300) });
  sheets.write('datums', {
    datum: 'MSL',
    kind: 'mean_sea_level',
    epoch_from: 1993,
    epoch_to: 2011,
  });
  sheets.write('datums', { datum: 'TLD', kind: 'local', note: 'zero of an old harbour plan' });
  sheets.write('datum_shifts', {
    from: 'TLD',
    to: 'MSL',
    shift_m: plain(SHIFT.shift_m, 3),
    sigma_m: SHIFT.sigma_m,
    source: 'a month of gauge readings against the bench mark',
  });
  sheets.write('benchmarks', {
    benchmark: BENCHMARK.name,
    datum: 'TLD',
    elevation_m: plain(BENCHMARK.elevation_m, 3),
    sigma_m: BENCHMARK.sigma_m,
    date: '2009-10-20',
    source: 'bolt in rock; sheet of the old harbour plan',
  });
  for (const [level, true_m] of Object.entries(TRUE_TIDE_M)) {
    sheets.write('tide_levels', {
      site: 'TS',
      level,
      datum: 'MSL',
      // Mean sea level is the zero itself.
      elevation_m: level === 'MSL' ? 0 : plain(true_m + hidden.tide_levels_m, 3),
      sigma_m: level === 'MSL' ? 0 : TIDE_SIGMA_M,
      epoch: '1993-2011',
      source: 'tide model fitted to the month of gauge readings',
    });
  }
  sheets.write('gauges', {
    gauge: 'Neck pole',
    site: 'TS',
    datum: 'TLD',
    zero_elevation_m: -1.08,
    sigma_m: 0.02,
  });
  const clock = { day: DAYS[0].date, minute: 6 * 60 };
  const WAVES: readonly (readonly [number, number])[] = [
    // Height of a tide of 1.1 m about mean sea level, each half hour from low water to low water: cosines of 14.5° steps.
    [0, -1],
    [1, -0.97],
    [2, -0.88],
    [3, -0.73],
    [4, -0.53],
    [5, -0.3],
    [6, -0.05],
    [7, 0.2],
    [8, 0.44],
    [9, 0.65],
    [10, 0.82],
    [11, 0.93],
    [12, 0.99],
    [13, 0.99],
    [14, 0.93],
    [15, 0.82],
    [16, 0.65],
    [17, 0.44],
    [18, 0.2],
    [19, -0.05],
    [20, -0.3],
    [21, -0.53],
    [22, -0.73],
    [23, -0.88],
    [24, -0.97],
    [25, -1],
  ];
  for (const [step, share] of WAVES) {
    sheets.write('gauge_readings', {
      gauge: 'Neck pole',
      height_m: plain(1.1 * share - SHIFT.shift_m + 1.08 + 0.01 * random.normal(), 2),
      seq: step + 1,
      time: tick(clock, step === 0 ? 0 : 30),
      by: 'hand',
      device: 'tide pole',
      flag: step === 13 ? 'wash of a swell' : undefined,
    });
  }
  sheets.write('pipes', {
    pipe: '3 in',
    outside_diameter_mm: 88.9,
    wall_mm: 5.49,
    mass_kg_per_m: 11.29,
    makeup_loss: MAKEUP_LOSS_TYPED,
    note: '3 in schedule 40, flush-turned threads',
  });
  sheets.write('samplers', {
    sampler: 'V50',
    kind: 'valve',
    length: '1.62 m',
    capacity: '1.3 m',
    bore_mm: 50,
    outside_mm: 60.3,
    mass_kg: 14,
  });
  sheets.write('samplers', {
    sampler: 'Chamber',
    kind: 'chamber',
    length: '50 cm',
    capacity: '50 cm',
    bore_mm: 52,
    mass_kg: 4,
  });
}

/** All that was carried to the beach; three joints were never needed. */
const CARRIED = ['A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'B1', 'B2', 'B3', 'B4', 'C1', 'C2', 'C3', 'C4', 'C5'];

function writeStock(sheets: Sheets, random: RandomStream): void {
  sheets.write('pipe_stock', { stock_item: SHOE.label, item: 'shoe', pipe: '3 in', length: SHOE.typed });
  for (const label of CARRIED)
    sheets.write('pipe_stock', {
      stock_item: label,
      item: 'joint',
      pipe: '3 in',
      length: pipe(random.split('pipe'), label).typed,
    });
  sheets.write('gear', {
    gear: 'sampler cable, 30 m',
    count: 1,
    for: 'sampler',
    kind: 'cable',
    marks: 'white tape every metre, two every 5 m',
  });
  sheets.write('gear', { gear: 'hoisting rope', count: 2, for: 'pulling the string', kind: 'rope' });
  sheets.write('gear', { gear: 'vibrator', count: 1, for: 'driving', kind: 'vibrator' });
  sheets.write('gear', { gear: 'steel tape, 30 m', count: 2, for: 'joints and soundings', kind: 'tape' });
}

function writeHeights(sheets: Sheets, coast: Place[], hidden: HiddenErrors, random: RandomStream): void {
  // On the local datum, without the bench mark's error and the shift's: what a perfect level would find.
  const shift = SHIFT.shift_m - hidden.datum_shift_m;
  const peg = (hole: HoleName) => ({
    point: `${hole} peg`,
    true_m: coast[HOLES[hole].place]!.ground_m + HOLES[hole].peg_m - shift,
  });
  const mark = { point: BENCHMARK.name, true_m: BENCHMARK.elevation_m - hidden.benchmark_m };
  const morning = { day: DAYS[0].date, minute: 8 * 60 };
  levelLoop(
    'marsh',
    [
      { ...mark, distance_m: 0 },
      { ...peg('M3'), distance_m: 58 },
      { ...peg('M2'), distance_m: 116 },
      { ...peg('M1'), distance_m: 128 },
      { ...mark, distance_m: 296 },
    ],
    morning,
    sheets,
    random.split('marsh'),
  );
  levelLoop(
    'spit',
    [
      { ...mark, distance_m: 0 },
      { ...peg('T3'), distance_m: 470 },
      { ...peg('T2'), distance_m: 132 },
      { ...peg('T1'), distance_m: 0, between: true },
      { ...mark, distance_m: 610 },
    ],
    { day: DAYS[0].date, minute: 11 * 60 },
    sheets,
    random.split('spit'),
  );
}

/** Base of the soil below the ground, metres: a string hole is driven a little past it. */
function soilBase(place: Place): number {
  return place.ground_m - place.layers[place.layers.length - 1]!.top_m;
}

function stringPlans(coast: Place[]): StringPlan[] {
  const [crest, back, outer, inner] = coast as [Place, Place, Place, Place];
  return [
    {
      hole: 'T1',
      place: crest,
      target_m: soilBase(crest) + 0.45,
      parts_at_m: 9.06,
      pipes: ['A1', 'C1', 'B1', 'A2', 'C2', 'B2'],
      days: [DAYS[1].date, DAYS[2].date],
      tape: 'feet',
      device: 'book 1',
      peg_m: HOLES.T1.peg_m,
      water_m: 2.4,
    },
    {
      hole: 'T2',
      place: crest,
      target_m: soilBase(crest) + 0.45,
      pipes: ['A3', 'C3', 'B3', 'A4', 'C4', 'A5', 'C5', 'B4'],
      days: [DAYS[3].date, DAYS[4].date],
      tape: 'metres',
      device: 'book 1',
      peg_m: HOLES.T2.peg_m,
      water_m: 2.5,
      sinking: { past_m: 4, by_m: 0.05, cause: 'sand drawn down round the pipe, and blown away' },
      fall_in_at: 6,
      settles_m: 0.02,
    },
    {
      hole: 'T3',
      place: back,
      target_m: soilBase(back) + 0.45,
      pipes: ['C4', 'A5', 'B3', 'C5', 'A3', 'B4', 'A4'],
      days: [DAYS[5].date, DAYS[6].date],
      tape: 'metres',
      device: 'tablet',
      peg_m: HOLES.T3.peg_m,
      water_m: 1.7,
      sinking: { past_m: 2, by_m: 0.04, cause: 'high tide over the fan' },
      slip_at: 4,
      lost_lifting_at: 2,
    },
    {
      hole: 'M1',
      place: outer,
      target_m: soilBase(outer) + 0.45,
      pipes: ['A3', 'B3', 'C3', 'B4', 'A4'],
      days: [DAYS[7].date],
      tape: 'metres',
      device: 'tablet',
      peg_m: HOLES.M1.peg_m,
      water_m: 0.7,
      sinking: { past_m: 3, by_m: 0.03, cause: 'boots on the marsh' },
      stray_after: 2,
    },
    {
      hole: 'M2',
      place: inner,
      target_m: soilBase(inner) + 0.45,
      pipes: ['B3', 'A3', 'B4', 'C3'],
      days: [DAYS[8].date],
      tape: 'metres',
      device: 'tablet',
      peg_m: HOLES.M2.peg_m,
      water_m: 1.1,
    },
  ];
}

function writeHoles(sheets: Sheets, coast: Place[], drilled: ReadonlyMap<string, DrilledHole>): void {
  const write = (hole: HoleName, cells: Cells<'holes'>) => {
    const { place, aside_m } = HOLES[hole];
    const { along_m } = coast[place]!;
    sheets.write('holes', {
      hole,
      site: 'TS',
      ...position(along_m, aside_m),
      reference_point: `${hole} peg`,
      ...cells,
    });
  };
  const string = { method: 'string', pipe: '3 in' } as const;
  const left = drilled.get('T1')!.left;
  write('T1', {
    ...string,
    state: 'lost',
    end_reason: 'stopped on a stone or log; the string parted below the second joint while being drawn',
    left_in_ground: `shoe and joints ${left.filter((l) => l !== 'S').join(', ')} of 3 in pipe`,
    backfill: 'sand, and a float tied to the pipe 1 m down',
  });
  const done = { state: 'finished', end_reason: 'old land reached', backfill: 'bentonite' } as const;
  write('T2', { ...string, ...done, replaces: 'T1', distance_to_replaced_m: 2.4, inclination_deg: 1.5 });
  write('T3', { ...string, ...done });
  write('M1', { ...string, ...done });
  // Turf, as it lives; the top of M1 is of the day of its lead-210 profile.
  write('M2', { ...string, ...done, top_is_ground: 'yes' });
  write('M3', {
    method: 'chamber',
    state: 'finished',
    end_reason: 'too stiff for the chamber',
    top_is_ground: 'yes',
  });
}

/** Units as described on the tray: within each run or push, numbered down the hole. */
function describe(sheets: Sheets, cores: readonly Core[], places: ReadonlyMap<string, Place>): void {
  for (const [hole, place] of places) {
    const seen = new Map<string, number>();
    for (const core of cores.filter((c) => c.hole === hole)) {
      for (const part of layersOf(core, place)) {
        const { layer } = part;
        const number = seen.get(layer.key) ?? seen.size + 1;
        seen.set(layer.key, number);
        sheets.write('units', {
          hole,
          unit: String(number),
          depth_basis: core.basis,
          run: core.label,
          top: cm(part.top_m),
          bottom: cm(part.bottom_m),
          sediment: layer.sediment,
          secondary_sediment: layer.second,
          colour: layer.colour,
          organic: layer.organic,
          contact_below: part.base_seen ? layer.contact_below : undefined,
          event_bed: layer.event_bed,
          structures: layer.structures,
          fossils: layer.fossils,
          environment: layer.environment,
        });
      }
    }
  }
}

const cm = (length_m: number): string => `${plain(length_m, 2)} m`;

interface Part {
  layer: Place['layers'][number];
  top_m: number;
  bottom_m: number;
  /** The layer's base lies within this core. */
  base_seen: boolean;
}

/** A layer thinner than this in a core is not told apart. */
const THINNEST_M = 0.02;

function layersOf(core: Core, place: Place): Part[] {
  const parts: Part[] = [];
  let top = 0;
  for (const slice of core.slices) {
    const bottom = top + slice.length_m;
    if (slice.depth_m !== null) {
      const height_m = place.ground_m - slice.depth_m;
      const layer = place.layers.findLast((l) => l.top_m >= height_m) ?? place.layers[0]!;
      const last = parts[parts.length - 1];
      if (last?.layer === layer) last.bottom_m = bottom;
      else {
        if (last !== undefined) last.base_seen = true;
        parts.push({ layer, top_m: top, bottom_m: bottom, base_seen: false });
      }
    }
    top = bottom;
  }
  const told = parts.filter((p) => p.bottom_m - p.top_m >= THINNEST_M);
  told.forEach((part, i) => {
    const next = told[i + 1];
    if (next !== undefined) part.bottom_m = next.top_m;
    else if (parts.length > 0) part.bottom_m = parts[parts.length - 1]!.bottom_m;
    if (next === undefined && part.layer === parts[parts.length - 1]!.layer) part.base_seen = false;
  });
  return told;
}

/** The base of a unit of one hole is that of a like one of another. */
function tieTo(sheets: Sheets, horizon?: string) {
  const unit = (at: string, like: string, laid: string, place: 'first' | 'last'): string | undefined => {
    const found = (sheets.rows.get('units') ?? []).flatMap(({ hole, sediment, environment, unit }) =>
      hole === at && sediment === like && environment === laid && unit !== undefined ? [unit] : [],
    );
    return place === 'first' ? found[0] : found.at(-1);
  };
  return (a: string, b: string, confidence: string, name: [string, string, 'first' | 'last']): void => {
    const unit_a = unit(a, ...name);
    const unit_b = unit(b, ...name);
    if (unit_a === undefined || unit_b === undefined) return;
    sheets.write('correlations', { hole_a: a, unit_a, hole_b: b, unit_b, horizon, confidence });
  };
}

function writeTies(sheets: Sheets): void {
  const basal = tieTo(sheets, 'basal peat');
  const holes = ['T2', 'T3', 'M1', 'M2', 'M3'];
  for (let i = 0; i + 1 < holes.length; i++) {
    basal(holes[i]!, holes[i + 1]!, 'certain', ['peat', 'high marsh', 'last']);
  }
  const tie = tieTo(sheets);
  tie('T2', 'T3', 'possible', ['clay', 'lagoon', 'last']);
  tie('M1', 'M2', 'probable', ['silt', 'mudflat', 'first']);
}

/** Seen when the section was drawn. */
function writeLaterTies(sheets: Sheets): void {
  const tie = tieTo(sheets);
  tie('T2', 'T3', 'probable', ['medium sand', 'washover', 'last']);
  tie('T3', 'M1', 'probable', ['peat', 'high marsh', 'first']);
  tie('T3', 'M1', 'probable', ['silt', 'mudflat', 'first']);
  tie('T3', 'M1', 'possible', ['clay', 'lagoon', 'last']);
}

function writeDays(sheets: Sheets): void {
  for (const { date, weather, leave_by } of DAYS) {
    sheets.write('field_days', {
      date,
      crew: 'geologist, driller, hand',
      weather,
      permits: 'landing and drilling, seen and carried',
      contacts: 'boat on call, channel agreed each morning',
      leave_by: `${date}T${leave_by}:00-08:00`,
      ...ACCESS,
    });
  }
}

function writeSettings(sheets: Sheets, seed: number): void {
  const settings: Record<string, string> = {
    name: CAMPAIGN_NAME,
    datum: 'MSL',
    seed: String(seed),
    clearance_margin_m: '0.3',
    intervals: '8500-7500; 8000-7000; 7000-6000; 6000-4000; 4000-0',
  };
  for (const [name, value] of Object.entries(settings)) sheets.write('settings', { name, value });
}

/** Last, so that the rows written before keep their ids. */
function writeConstants(sheets: Sheets): void {
  for (const { constituent, amplitude_m, phase_deg } of TRUE_CONSTANTS) {
    sheets.write('constituents', {
      gauge: 'Neck pole',
      constituent,
      amplitude_m,
      phase_deg,
      source: 'tide model fitted to the month of gauge readings',
    });
  }
}
