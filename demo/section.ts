/**
 * What lies under the invented coast: five places on a section from the spit to the old land, and the true layers
 * under each. Contacts of the early rise are laid at chosen heights (their ages follow from the sea); the peats of
 * the late, slow fall are laid where the sea of their time was. Long because it is one list of layers.
 */
import type { RandomStream } from '@stillstand/science/base';
import { TRUE_TIDE_M, trueLevel } from './sea.ts';

/** A true layer. */
export interface Layer {
  /** True height of its top, metres above mean sea level; its base is the top of the next. */
  top_m: number;
  /** What the geologist writes of it. */
  sediment: string;
  second?: string;
  colour: string;
  organic?: string;
  structures?: string;
  fossils?: string;
  environment: string;
  /** Laid down at once, by a storm. */
  event_bed?: 'yes';
  contact_below: 'sharp' | 'gradational' | 'erosional' | 'uncertain';
  /** How much more (> 1) or less it is shortened on its way into the pipe than mud. */
  shortening: number;
  /** Name a sample plan knows it by. */
  key: string;
}

export interface Place {
  place: string;
  /** Metres landward along the section from the spit's outer side. */
  along_m: number;
  ground_m: number;
  /** From the top down. */
  layers: Layer[];
}

/** Where the first place of the section lies (open ocean; no land within a thousand kilometres), and its bearing. */
const ORIGIN = { latitude_deg: -46.412, longitude_deg: -121.318, bearing_deg: 62 };
const METRES_PER_DEGREE = 111_150;

/** Latitude and longitude of a point of the section, `aside_m` to its right. */
export function position(along_m: number, aside_m = 0): { latitude_deg: string; longitude_deg: string } {
  // sin and cos of 62°, cos of 46.412°: written out, because engines differ in the last digit.
  const [sine, cosine, parallel] = [0.882948, 0.469472, 0.689468];
  const north_m = along_m * cosine - aside_m * sine;
  const east_m = along_m * sine + aside_m * cosine;
  return {
    latitude_deg: (ORIGIN.latitude_deg + north_m / METRES_PER_DEGREE).toFixed(6),
    longitude_deg: (ORIGIN.longitude_deg + east_m / (METRES_PER_DEGREE * parallel)).toFixed(6),
  };
}

const duneSand = {
  sediment: 'fine sand',
  colour: '10YR 7/3',
  structures: 'bedded',
  fossils: 'rootlets',
  environment: 'dune',
  shortening: 0.9,
} as const;
const beachSand = {
  sediment: 'coarse sand',
  second: 'gravel',
  colour: '10YR 6/2',
  structures: 'bedded',
  fossils: 'shell fragments',
  environment: 'beach',
  shortening: 0.75,
} as const;
const shorefaceSand = {
  sediment: 'fine sand',
  colour: '2.5Y 5/1',
  structures: 'laminated',
  fossils: 'shell fragments',
  environment: 'shoreface',
  shortening: 0.8,
} as const;
const washoverSand = {
  sediment: 'medium sand',
  colour: '2.5Y 6/2',
  structures: 'bedded;graded upward',
  fossils: 'shell fragments',
  environment: 'washover',
  event_bed: 'yes',
  shortening: 0.8,
} as const;
const tidalSilt = {
  sediment: 'silt',
  second: 'fine sand',
  colour: '5Y 5/1',
  structures: 'laminated;burrowed',
  fossils: 'shell fragments',
  environment: 'mudflat',
  shortening: 1,
} as const;
const lagoonClay = {
  sediment: 'clay',
  second: 'silt',
  colour: '5GY 4/1',
  structures: 'massive',
  fossils: 'articulated shells',
  environment: 'lagoon',
  shortening: 1.05,
} as const;
const marshPeat = {
  sediment: 'peat',
  second: 'silt',
  colour: '10YR 3/2',
  organic: 'fibrous; rushes',
  structures: 'rooted',
  fossils: 'roots in place;seeds',
  environment: 'high marsh',
  shortening: 1.2,
} as const;
const soil = {
  sediment: 'rooted clay',
  second: 'sand',
  colour: '10YR 4/3',
  structures: 'rooted;mottled',
  fossils: 'roots in place;charcoal',
  environment: 'land surface',
  shortening: 0.9,
} as const;
const stream = {
  sediment: 'gravel',
  second: 'sand',
  colour: '10YR 5/2',
  structures: 'bedded',
  environment: 'river channel',
  shortening: 0.7,
} as const;
const diamicton = {
  sediment: 'diamicton',
  colour: '2.5Y 5/3',
  structures: 'massive',
  environment: 'not known',
  shortening: 0.7,
} as const;

const turf = {
  sediment: 'soil',
  second: 'peat',
  colour: '10YR 2/1',
  organic: 'crumbly; grass roots',
  structures: 'rooted',
  fossils: 'rootlets',
  environment: 'land surface',
  shortening: 1,
} as const;

/** When the peats whose heights follow from their ages began, cal BP. */
export const LATE_PEAT_CAL_BP = { back: 2800, outer: 900, inner: 5100, edge: 6050 } as const;

/** Even between mean high water and the highest tide: where high salt-marsh peat forms. */
export const drawMarshHeight = (random: RandomStream): number =>
  TRUE_TIDE_M.MHW + random.uniform() * (TRUE_TIDE_M.HAT - TRUE_TIDE_M.MHW);

/** The five places, spit to old land. Contacts vary a little with the stream. */
export function layTheCoast(random: RandomStream): Place[] {
  /** A contact at about this height. */
  const at = (place: string, height_m: number): number =>
    height_m + 0.04 * random.split(`${place} ${height_m}`).normal();
  /** Height of a peat that began at this age. */
  const marshAt = (place: string, age_cal_bp: number): number =>
    trueLevel(age_cal_bp) + drawMarshHeight(random.split(`${place} marsh ${age_cal_bp}`));

  const spitPeat = at('spit', -11.55);
  const spitClay = at('spit', -8.6);
  const crest: Place = {
    place: 'spit crest',
    along_m: 60,
    ground_m: 3.02,
    layers: [
      { ...duneSand, key: 'dune', top_m: 3.02, contact_below: 'gradational' },
      { ...beachSand, key: 'beach', top_m: at('spit', 1.9), contact_below: 'sharp' },
      { ...shorefaceSand, key: 'shoreface', top_m: at('spit', -2.5), contact_below: 'erosional' },
      { ...tidalSilt, key: 'flat', top_m: at('spit', -5.15), contact_below: 'gradational' },
      { ...marshPeat, key: 'fan peat', top_m: at('spit', -6.12), contact_below: 'gradational' },
      { ...washoverSand, key: 'fan', top_m: at('spit', -6.45), contact_below: 'sharp' },
      { ...lagoonClay, key: 'lagoon', top_m: spitClay, contact_below: 'gradational' },
      { ...tidalSilt, key: 'drowning', top_m: spitPeat + 0.5, contact_below: 'gradational' },
      { ...marshPeat, key: 'basal peat', top_m: spitPeat + 0.33, contact_below: 'sharp' },
      { ...soil, key: 'soil', top_m: spitPeat, contact_below: 'gradational' },
      { ...diamicton, key: 'land', top_m: at('spit', -12), contact_below: 'uncertain' },
    ],
  };

  const backPeat = at('back', -8);
  const backFan = at('back', -2.5);
  const backMarsh = marshAt('back', LATE_PEAT_CAL_BP.back);
  const back: Place = {
    place: 'back barrier',
    along_m: 190,
    ground_m: backMarsh + 0.72,
    layers: [
      { ...washoverSand, key: 'late fan', top_m: backMarsh + 0.72, contact_below: 'sharp' },
      { ...marshPeat, key: 'late peat', top_m: backMarsh + 0.2, contact_below: 'gradational' },
      { ...tidalSilt, key: 'flat', top_m: backMarsh, contact_below: 'gradational' },
      { ...washoverSand, key: 'middle fan', top_m: at('back', -0.75), contact_below: 'sharp' },
      { ...lagoonClay, key: 'late lagoon', top_m: at('back', -1.35), contact_below: 'gradational' },
      { ...marshPeat, key: 'fan peat', top_m: backFan + 0.35, contact_below: 'gradational' },
      { ...washoverSand, key: 'fan', top_m: backFan, contact_below: 'sharp' },
      { ...lagoonClay, key: 'lagoon', top_m: at('back', -4.6), contact_below: 'gradational' },
      { ...tidalSilt, key: 'drowning', top_m: backPeat + 0.5, contact_below: 'gradational' },
      { ...marshPeat, key: 'basal peat', top_m: backPeat + 0.34, contact_below: 'sharp' },
      { ...soil, key: 'soil', top_m: backPeat, contact_below: 'gradational' },
      { ...stream, key: 'land', top_m: at('back', -8.4), contact_below: 'uncertain' },
    ],
  };

  const outerPeat = at('outer', -4.1);
  const outerMarsh = marshAt('outer', LATE_PEAT_CAL_BP.outer);
  const outer: Place = {
    place: 'outer marsh',
    along_m: 345,
    ground_m: outerMarsh + 0.28,
    layers: [
      { ...marshPeat, key: 'late peat', top_m: outerMarsh + 0.28, contact_below: 'gradational' },
      { ...tidalSilt, key: 'flat', top_m: outerMarsh, contact_below: 'gradational' },
      { ...lagoonClay, key: 'lagoon', top_m: at('outer', -0.65), contact_below: 'sharp' },
      { ...washoverSand, key: 'fan', top_m: at('outer', -3.3), contact_below: 'erosional' },
      { ...marshPeat, key: 'basal peat', top_m: outerPeat + 0.36, contact_below: 'sharp' },
      { ...soil, key: 'soil', top_m: outerPeat, contact_below: 'gradational' },
      { ...stream, key: 'land', top_m: at('outer', -4.5), contact_below: 'uncertain' },
    ],
  };

  const innerPeat = at('inner', -1.2);
  const innerMarsh = marshAt('inner', LATE_PEAT_CAL_BP.inner);
  const inner: Place = {
    place: 'inner marsh',
    along_m: 470,
    ground_m: innerMarsh + 0.38,
    layers: [
      { ...turf, key: 'turf', top_m: innerMarsh + 0.38, contact_below: 'gradational' },
      { ...marshPeat, key: 'late peat', top_m: innerMarsh + 0.14, contact_below: 'gradational' },
      { ...tidalSilt, key: 'flat', top_m: innerMarsh, contact_below: 'gradational' },
      { ...lagoonClay, key: 'lagoon', top_m: innerPeat + 0.9, contact_below: 'gradational' },
      { ...marshPeat, key: 'basal peat', top_m: innerPeat + 0.36, contact_below: 'sharp' },
      { ...soil, key: 'soil', top_m: innerPeat, contact_below: 'gradational' },
      { ...diamicton, key: 'land', top_m: at('inner', -1.6), contact_below: 'uncertain' },
    ],
  };

  const edgePeat = marshAt('edge', LATE_PEAT_CAL_BP.edge);
  const edge: Place = {
    place: 'old-land edge',
    along_m: 585,
    ground_m: edgePeat + 1.02,
    layers: [
      { ...turf, key: 'turf', top_m: edgePeat + 1.02, contact_below: 'gradational' },
      { ...marshPeat, key: 'basal peat', top_m: edgePeat + 0.7, contact_below: 'sharp' },
      { ...soil, key: 'soil', top_m: edgePeat, contact_below: 'gradational' },
      { ...diamicton, key: 'land', top_m: edgePeat - 0.5, contact_below: 'uncertain' },
    ],
  };
  return [crest, back, outer, inner, edge];
}

/** The layer at a true height. */
export function layerAt(place: Place, height_m: number): Layer {
  let found = place.layers[0]!;
  for (const layer of place.layers) if (layer.top_m >= height_m) found = layer;
  return found;
}

/** True height of a layer's base; −∞ for the last. */
export function baseOf(place: Place, layer: Layer): number {
  return place.layers[place.layers.indexOf(layer) + 1]?.top_m ?? Number.NEGATIVE_INFINITY;
}
