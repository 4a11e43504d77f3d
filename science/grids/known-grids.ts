/**
 * National grids that are published with all their parameters: EPSG Geodetic Parameter Dataset (IOGP), projected systems
 * by code, their areas of use and the accuracy it states for the shift to WGS 84. A shift of three or seven parameters
 * (position vector, as PROJ's towgs84) is used where the country itself has a shift file, which is not carried here.
 */
import type { Area } from '@stillstand/science/survey';

export interface KnownGrid {
  /** EPSG. */
  code: number;
  name: string;
  /** PROJ. */
  proj: string;
  area: Area;
  /** How far a place may be off on WGS 84, m; plates have moved since their epoch, so never less than 1. */
  accuracy_m: number;
  /** What its own country shifts it with; null where none is needed. */
  shift_file: string | null;
}

const area = (west: number, south: number, east: number, north: number): Area => ({
  west,
  south,
  east,
  north,
});
const grid = (
  code: number,
  name: string,
  proj: string,
  of: Area,
  accuracy_m = 1,
  shift_file: string | null = null,
): KnownGrid => ({ code, name, proj, area: of, accuracy_m, shift_file });

const GRS80 = '+ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m';
const WGS84 = '+datum=WGS84 +units=m';
/** EPSG 1777, 3 m. */
const DHDN = '+ellps=bessel +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7 +units=m';

const NATIONAL: readonly KnownGrid[] = [
  grid(
    27700,
    'OSGB36 / British National Grid',
    // Seven parameters of the Ordnance Survey, which states 5 m.
    '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489 +units=m',
    area(-9, 49.75, 2.01, 61.01),
    5,
    'OSTN15',
  ),
  grid(
    2157,
    'IRENET95 / Irish Transverse Mercator',
    `+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=0.99982 +x_0=600000 +y_0=750000 ${GRS80}`,
    area(-10.56, 51.39, -5.34, 55.43),
  ),
  grid(
    29903,
    'TM75 / Irish Grid',
    '+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000 +a=6377340.189 +rf=299.3249646 +towgs84=482.5,-130.6,564.6,-1.042,-0.214,-0.631,8.15 +units=m',
    area(-10.56, 51.39, -5.34, 55.43),
    1,
    'the polynomial of its surveys',
  ),
  grid(
    28992,
    'Amersfoort / RD New',
    // EPSG 4833, 1 m.
    '+proj=sterea +lat_0=52.1561605555556 +lon_0=5.38763888888889 +k=0.9999079 +x_0=155000 +y_0=463000 +ellps=bessel +towgs84=565.4171,50.3319,465.5524,-0.398957,0.343988,-1.877402,4.0725 +units=m',
    area(3.2, 50.75, 7.22, 53.7),
    1,
    'RDTRANS',
  ),
  grid(
    31370,
    'BD72 / Belgian Lambert 72',
    '+proj=lcc +lat_0=90 +lon_0=4.36748666666667 +lat_1=51.1666672333333 +lat_2=49.8333339 +x_0=150000.013 +y_0=5400088.438 +ellps=intl +towgs84=-106.8686,52.2978,-103.7239,0.3366,-0.457,1.8422,-1.2747 +units=m',
    area(2.5, 49.5, 6.4, 51.51),
    1,
    'its shift grid',
  ),
  grid(
    3812,
    'ETRS89 / Belgian Lambert 2008',
    `+proj=lcc +lat_0=50.797815 +lon_0=4.35921583333333 +lat_1=49.8333333333333 +lat_2=51.1666666666667 +x_0=649328 +y_0=665262 ${GRS80}`,
    area(2.5, 49.5, 6.4, 51.51),
  ),
  grid(
    2154,
    'RGF93 v1 / Lambert-93',
    `+proj=lcc +lat_0=46.5 +lon_0=3 +lat_1=49 +lat_2=44 +x_0=700000 +y_0=6600000 ${GRS80}`,
    area(-9.86, 41.15, 10.38, 51.56),
  ),
  grid(
    31467,
    'DHDN / 3-degree Gauss-Kruger zone 3',
    `+proj=tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=3500000 +y_0=0 ${DHDN}`,
    area(7.5, 47.27, 10.51, 55.09),
    3,
    'BeTA2007',
  ),
  grid(
    31468,
    'DHDN / 3-degree Gauss-Kruger zone 4',
    `+proj=tmerc +lat_0=0 +lon_0=12 +k=1 +x_0=4500000 +y_0=0 ${DHDN}`,
    area(10.5, 47.39, 13.51, 54.59),
    3,
    'BeTA2007',
  ),
  grid(
    2180,
    'ETRF2000-PL / CS92',
    `+proj=tmerc +lat_0=0 +lon_0=19 +k=0.9993 +x_0=500000 +y_0=-5300000 ${GRS80}`,
    area(14.14, 49, 24.15, 55.93),
  ),
  grid(3006, 'SWEREF99 TM', `+proj=utm +zone=33 ${GRS80}`, area(10.03, 54.96, 24.17, 69.07)),
  grid(3067, 'ETRS89 / TM35FIN(E,N)', `+proj=utm +zone=35 ${GRS80}`, area(19.08, 58.84, 31.59, 70.09)),
  grid(
    3057,
    'ISN93 / Lambert 1993',
    `+proj=lcc +lat_0=65 +lon_0=-19 +lat_1=64.25 +lat_2=65.75 +x_0=500000 +y_0=500000 ${GRS80}`,
    area(-30.87, 59.96, -5.55, 69.59),
  ),
  grid(
    3059,
    'LKS92 / Latvia TM',
    `+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +y_0=-6000000 ${GRS80}`,
    area(19.06, 55.67, 28.24, 58.09),
  ),
  grid(
    3346,
    'LKS94 / Lithuania TM',
    `+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9998 +x_0=500000 +y_0=0 ${GRS80}`,
    area(19.02, 53.89, 26.82, 56.45),
  ),
  grid(
    3763,
    'ETRS89 / Portugal TM06',
    `+proj=tmerc +lat_0=39.6682583333333 +lon_0=-8.13310833333333 +k=1 +x_0=0 +y_0=0 ${GRS80}`,
    area(-9.56, 36.95, -6.19, 42.16),
  ),
  grid(
    3765,
    'HTRS96 / Croatia TM',
    `+proj=tmerc +lat_0=0 +lon_0=16.5 +k=0.9999 +x_0=500000 +y_0=0 ${GRS80}`,
    area(13.43, 42.34, 19.43, 46.54),
  ),
  grid(
    2100,
    'GGRS87 / Greek Grid',
    '+proj=tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +y_0=0 +ellps=GRS80 +towgs84=-199.87,74.79,246.62 +units=m',
    area(19.57, 34.88, 28.3, 41.75),
  ),
  grid(
    3035,
    'ETRS89-extended / LAEA Europe',
    `+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000 ${GRS80}`,
    area(-35.58, 24.6, 44.83, 84.73),
  ),
  grid(
    2193,
    'NZGD2000 / New Zealand Transverse Mercator 2000',
    `+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +x_0=1600000 +y_0=10000000 ${GRS80}`,
    area(166.37, -47.33, 178.63, -34.1),
  ),
  grid(
    3005,
    'NAD83 / BC Albers',
    `+proj=aea +lat_0=45 +lon_0=-126 +lat_1=50 +lat_2=58.5 +x_0=1000000 +y_0=0 ${GRS80}`,
    area(-139.04, 48.25, -114.08, 60.01),
    4,
  ),
  grid(
    5179,
    'Korea 2000 / Unified CS',
    `+proj=tmerc +lat_0=38 +lon_0=127.5 +k=0.9996 +x_0=1000000 +y_0=2000000 ${GRS80}`,
    area(122.71, 28.6, 134.28, 40.27),
  ),
  grid(
    3826,
    'TWD97 / TM2 zone 121',
    `+proj=tmerc +lat_0=0 +lon_0=121 +k=0.9999 +x_0=250000 +y_0=0 ${GRS80}`,
    area(119.99, 20.41, 122.06, 26.72),
  ),
];

/** Zones of UTM, 6° wide, each by its code: so that a campaign need not type its zone before every place. */
const zones = (
  first: number,
  last: number,
  { before, name, half, south, datum = GRS80, accuracy_m = 1 }: UtmSeries,
): KnownGrid[] =>
  Array.from({ length: last - first + 1 }, (_, i) => {
    const zone = first + i;
    const west = 6 * zone - 186;
    return grid(
      before + zone,
      `${name} zone ${zone}${half}`,
      `+proj=utm +zone=${zone}${south ? ' +south' : ''} ${datum}`,
      south ? area(west, -80, west + 6, 0) : area(west, 0, west + 6, 84),
      accuracy_m,
    );
  });
interface UtmSeries {
  before: number;
  name: string;
  half: string;
  south: boolean;
  datum?: string;
  accuracy_m?: number;
}

/** In the order they are offered. */
export const KNOWN_GRIDS: readonly KnownGrid[] = [
  ...NATIONAL,
  ...zones(28, 37, { before: 25800, name: 'ETRS89 / UTM', half: 'N', south: false }),
  ...zones(46, 59, { before: 7800, name: 'GDA2020 / MGA', half: '', south: true, accuracy_m: 3 }),
  ...zones(1, 60, { before: 32600, name: 'WGS 84 / UTM', half: 'N', south: false, datum: WGS84 }),
  ...zones(1, 60, { before: 32700, name: 'WGS 84 / UTM', half: 'S', south: true, datum: WGS84 }),
];
