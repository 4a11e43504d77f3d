/** Layers that are sampled and wait for a date, as a geologist names them; and those that cannot be used, with why. */
import { type Results, sitesOfCurve } from '@stillstand/campaign/results';
import type { Layer } from '@stillstand/science/curve';
import { printed } from './number.ts';

export interface LayersToDate {
  layers: Layer[];
  /** Of each point, "core H2, 6.42 m, sample H2-7". */
  names: ReadonlyMap<string, string>;
  /** Samples without a date that are not ranked, by what keeps them from it. */
  unusable: { why: string; names: string[] }[];
}

/** "core H2, 6.42 m, sample H2-7": as much of it as is known. */
export const layerName = (hole: string | null, depth_m: number | null, sample: string): string =>
  [
    ...(hole === null ? [] : [`core ${hole}`]),
    ...(depth_m === null ? [] : [`${printed(depth_m, 2)} m`]),
    `sample ${sample}`,
  ].join(', ');

/**
 * Of the sites of the headline curve; layers of other sites show another sea level. `held`: samples that cannot be dated
 * now, with why.
 */
export function layersToDate(results: Results, held: ReadonlyMap<string, string> = new Map()): LayersToDate {
  const samples = new Map(results.samples.map((sample) => [sample.sample, sample]));
  const named = (sample: string): string => {
    const of = samples.get(sample);
    return layerName(of?.hole ?? null, of?.depth_m?.value ?? null, sample);
  };
  const sites = sitesOfCurve(results);
  const why = new Map<string, string[]>();
  const leave = (reason: string, sample: string): void => {
    why.set(reason, [...(why.get(reason) ?? []), named(sample)]);
  };
  const layers: Layer[] = [];
  const names = new Map<string, string>();
  const spoken = new Set(results.points.map(({ sample }) => sample));
  for (const { point, sample, rsl_m, rsl_sigma_m } of results.undated) {
    spoken.add(sample);
    if (!sites.includes(samples.get(sample)?.site ?? null)) {
      leave('of a site that is not in this curve', sample);
      continue;
    }
    const whyHeld = held.get(sample);
    if (whyHeld !== undefined) {
      leave(whyHeld, sample);
      continue;
    }
    names.set(point, named(sample));
    layers.push({ point, rsl_m, rsl_sigma_m, price: null });
  }
  for (const { code, found } of results.problems) {
    const reason = WHY[code];
    if (reason === undefined || spoken.has(found) || samples.get(found)?.dated !== false) continue;
    spoken.add(found);
    leave(held.get(found) ?? reason, found);
  }
  for (const { sample, dated } of results.samples)
    if (!dated && !spoken.has(sample))
      leave(held.get(sample) ?? 'nothing stated that it says of the sea', sample);
  return { layers, names, unusable: [...why].map(([reason, found]) => ({ why: reason, names: found })) };
}

/** Problems of points that name the sample. */
const WHY: Readonly<Record<string, string>> = {
  'point-without-elevation': 'no elevation',
  'point-without-date': 'a limiting or a rejected point: only index points are ranked',
};
