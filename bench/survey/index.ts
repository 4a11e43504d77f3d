/** Geodesics beside their author's general library in the same run: within a site, and anywhere. */
import { randomStream } from '@stillstand/science/base';
import { geodesic, type Position } from '@stillstand/science/survey';
import geographic from 'geographiclib-geodesic';

export interface GeodesicBench {
  where: string;
  /** Microseconds a geodesic, the least of the repeats. */
  own_us: number;
  library_us: number;
  /** Own over library's: below 1 is faster. */
  ratio: number;
  largest_difference_nm: number;
}

const PAIRS = 5000;
const REPEATS = 30;

export function benchGeodesics(): GeodesicBench[] {
  const random = randomStream('geodesic bench');
  const anywhere = (): Position => ({
    latitude_deg: 180 * random.uniform() - 90,
    longitude_deg: 360 * random.uniform() - 180,
  });
  const near = ({ latitude_deg, longitude_deg }: Position): Position => ({
    latitude_deg: 0.9 * latitude_deg + 0.01 * random.uniform(),
    longitude_deg: longitude_deg + 0.01 * random.uniform(),
  });
  const of = (where: string, pair: () => [Position, Position]) =>
    measure(where, Array.from({ length: PAIRS }, pair));
  return [
    of('within a site', () => {
      const place = anywhere();
      return [{ ...place, latitude_deg: 0.9 * place.latitude_deg }, near(place)];
    }),
    of('anywhere', () => [anywhere(), anywhere()]),
  ];
}

function measure(where: string, pairs: [Position, Position][]): GeodesicBench {
  const own = new Float64Array(PAIRS);
  const library = new Float64Array(PAIRS);
  const { WGS84 } = geographic.Geodesic;
  let own_us = Infinity;
  let library_us = Infinity;
  for (let k = 0; k < REPEATS; k++) {
    let began = performance.now();
    pairs.forEach(([a, b], i) => {
      own[i] = geodesic(a, b).distance_m;
    });
    own_us = Math.min(own_us, ((performance.now() - began) * 1000) / PAIRS);
    began = performance.now();
    pairs.forEach(([a, b], i) => {
      library[i] = WGS84.Inverse(a.latitude_deg, a.longitude_deg, b.latitude_deg, b.longitude_deg).s12!;
    });
    library_us = Math.min(library_us, ((performance.now() - began) * 1000) / PAIRS);
  }
  const largest = own.reduce((most, d, i) => Math.max(most, Math.abs(d - library[i]!)), 0);
  return { where, own_us, library_us, ratio: own_us / library_us, largest_difference_nm: largest * 1e9 };
}
