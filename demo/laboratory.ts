/**
 * Slices of one hole's cores in the laboratory: loss on ignition, dry density and grain size, from what is true of each
 * layer, and what a laboratory writes of it.
 */
import { exp, normalCdf, type RandomStream } from '@stillstand/science/base';
import { type Core, depthInCore, lengthOf } from './core.ts';
import { baseOf, type Layer, layerAt, type Place } from './section.ts';
import { metres, plain, type Sheets } from './sheet.ts';

/** What is true of a value that was written; none of it is in the campaign. */
export interface LaboratoryTruth {
  row_id: string;
  property: string;
  /** Of the middle of the slice below the ground at the start of the hole, metres. */
  depth_m: number;
  value: number;
}

/** Of a layer: organic matter at its top and base, % of dry mass; grains as a normal in φ, with what is gravel, %. */
interface Matter {
  organic: readonly [top: number, base: number];
  mean_phi: number;
  sd_phi: number;
  gravel: number;
}
const MUD = { sd_phi: 2, gravel: 0 };
/** By sediment (common practice, no source). */
const MATTER: Readonly<Record<string, Matter>> = {
  peat: { organic: [48, 32], mean_phi: 7, ...MUD },
  silt: { organic: [9, 6], mean_phi: 5.2, ...MUD },
  clay: { organic: [7, 12], mean_phi: 7.8, ...MUD },
  'rooted clay': { organic: [16, 5], mean_phi: 6.8, ...MUD },
  gravel: { organic: [0.3, 0.1], mean_phi: 0.4, sd_phi: 1.1, gravel: 55 },
  'medium sand': { organic: [0.3, 0.2], mean_phi: 1.6, sd_phi: 0.7, gravel: 1.5 },
};

/** Dry density of organic and of mineral matter alone, packed as in a marsh, g/cm³ (Morris et al. 2016, from memory). */
const ORGANIC_G_CM3 = 0.085;
const MINERAL_G_CM3 = 1.99;
/** 1 sigma of the laboratory: per cent of dry mass, g/cm³, per cent of a class. */
const ERROR = { loss: 0.6, density: 0.03, part: 0.4 } as const;
/** Less is reported as a limit, %. */
const LEAST_LOSS = 0.5;

/** Limits of the classes, φ, and their names; the first and the last are open. */
const CLASSES: readonly (readonly [string, number])[] = [
  ['> 2 mm', -1],
  ['0.5–2 mm', 1],
  ['250–500 µm', 2],
  ['125–250 µm', 3],
  ['63–125 µm', 4],
  ['16–63 µm', 6],
  ['4–16 µm', 8],
  ['< 4 µm', Infinity],
];
/** How far the mean of a slice is from that of its layer, 1 sd. */
const UNLIKE_PHI = 0.4;
/** Half a slice, where the first is cut, and how far on the next; metres. */
const HALF_M = 0.01;
const FIRST_M = 0.08;
const STEP_M = 0.42;

/** Writes the measurements of the hole; gives what is true of each. */
export function measureSlices(
  { hole, cores, place }: { hole: string; cores: readonly Core[]; place: Place },
  sheets: Sheets,
  stream: RandomStream,
): LaboratoryTruth[] {
  const random = stream.split('laboratory');
  const truths: LaboratoryTruth[] = [];
  const slices = cores.flatMap((core) => (core.hole === hole ? slicesOf(core, place) : []));
  slices.forEach(({ core, top_m, depth_m, layer }, i) => {
    const matter = MATTER[layer.sediment];
    if (matter === undefined) return;
    const own = random.split(`${core.label} ${i}`);
    const at = {
      hole,
      depth_basis: core.basis,
      run: core.label,
      top: metres(top_m),
      bottom: metres(top_m + 2 * HALF_M),
    };
    const write = (
      property: string,
      value: number,
      cells: {
        value: string;
        sigma?: number;
        qualifier?: string;
        unit: string;
        method: string;
        batch?: string;
      },
    ): void => {
      const row_id = sheets.write('measurements', { ...at, property, ...cells });
      truths.push({ row_id, property, depth_m, value });
    };
    const base_m = baseOf(place, layer);
    const part = (layer.top_m - (place.ground_m - depth_m)) / (layer.top_m - base_m);
    const [upper, lower] = matter.organic;
    const organic = Math.max(
      0.1,
      (upper + (lower - upper) * part) * exp(0.12 * own.split('organic').normal()),
    );
    const loss = organic + ERROR.loss * own.split('loss').normal();
    const ignition = { unit: '%', method: '550 °C, 4 h' };
    if (loss < LEAST_LOSS)
      write('loss on ignition', organic, {
        value: plain(LEAST_LOSS, 1),
        qualifier: 'less_than',
        ...ignition,
      });
    else write('loss on ignition', organic, { value: plain(loss, 1), sigma: ERROR.loss, ...ignition });
    const density = 1 / (organic / 100 / ORGANIC_G_CM3 + (1 - organic / 100) / MINERAL_G_CM3);
    write('dry density', density, {
      value: plain(Math.max(0.05, density + ERROR.density * own.split('density').normal()), 2),
      sigma: ERROR.density,
      unit: 'g/cm3',
      method: 'weighed',
    });
    // Peat has too little mineral matter; of the rest every second slice was sized.
    if (layer.sediment !== 'peat' && i % 2 === 0)
      sized(matter, own.split('grains')).forEach(({ name, percent, measured }) => {
        write(name, percent, {
          value: plain(measured, 1),
          sigma: ERROR.part,
          unit: '%',
          method: 'laser',
          batch: 'grains',
        });
      });
  });
  return truths;
}

function slicesOf(core: Core, place: Place): { core: Core; top_m: number; depth_m: number; layer: Layer }[] {
  const slices = [];
  for (let top_m = FIRST_M; top_m + 2 * HALF_M < lengthOf(core.slices) - 0.02; top_m += STEP_M) {
    const depth_m = depthInCore(core, top_m + HALF_M);
    if (depth_m === null) continue;
    slices.push({ core, top_m, depth_m, layer: layerAt(place, place.ground_m - depth_m) });
  }
  return slices;
}

/** True parts of the classes, and as measured: parts of their own sum, as instruments give them. */
function sized(
  { mean_phi: usual_phi, sd_phi, gravel: usual }: Matter,
  random: RandomStream,
): { name: string; percent: number; measured: number }[] {
  // No two slices of a layer are alike.
  const mean_phi = usual_phi + UNLIKE_PHI * random.split('mean').normal();
  const gravel = usual * 2 * random.split('gravel').uniform();
  const below = (phi: number): number => normalCdf((phi - mean_phi) / sd_phi);
  const fine = 1 - below(-1);
  const parts = CLASSES.map(([name, finer_phi], i) => {
    const percent =
      i === 0 ? gravel : ((100 - gravel) * (below(finer_phi) - below(CLASSES[i - 1]![1]))) / fine;
    return {
      name,
      percent,
      measured: Math.max(0, percent + (percent < 0.05 ? 0 : ERROR.part * random.normal())),
    };
  });
  const sum = parts.reduce((total, { measured }) => total + measured, 0);
  return parts.map((each) => ({ ...each, measured: (100 * each.measured) / sum }));
}
