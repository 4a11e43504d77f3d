/**
 * Which curves there are, who published them, and their figures: as published rows, or on the yearly grid that dating
 * computes on (linear between published rows). Each curve is its own module, fetched when first asked for.
 */
import { exp } from '@stillstand/science/base';
import { onWholeYears, type YearlyCurve } from '@stillstand/science/dating';
import { decodeDifferences } from './difference-text.ts';
import type { EncodedCurve } from './encoded-curve.ts';

export type CurveName = YearName | BombName;
type YearName = 'intcal20' | 'shcal20' | 'marine20';
export type BombName = 'bomb21_nh1' | 'bomb21_nh2' | 'bomb21_nh3' | 'bomb21_sh1_2' | 'bomb21_sh3';

export interface CurveDescription {
  /** As the literature writes it. */
  label: string;
  /** What it is the curve of. */
  of: string;
  citation: string;
  doi: string;
  licence: string;
  youngest_cal_bp: number;
  oldest_cal_bp: number;
  /** Published rows. */
  rows: number;
}

/** The published rows: cal BP ascending, 14C age and 1 sigma in 14C yr. */
export interface CurveRows {
  cal_bp: Float64Array;
  c14_age: Float64Array;
  sigma_yr: Float64Array;
}

/** Monthly rows of a post-bomb curve. */
export interface BombCurve {
  /** Decimal year CE, middle of the month. */
  year_ce: Float64Array;
  c14_age: Float64Array;
  sigma_yr: Float64Array;
  /** exp(−age/8033) and its 1 sigma. */
  f14c: Float64Array;
  f14c_sigma: Float64Array;
}

const LICENCE = 'CC BY 4.0';

export const CURVES: Record<YearName, CurveDescription> = {
  intcal20: {
    label: 'IntCal20',
    of: 'Northern Hemisphere atmosphere',
    citation:
      'Reimer P.J. et al. 2020. The IntCal20 Northern Hemisphere radiocarbon age calibration curve (0–55 cal kBP). Radiocarbon 62:725–757.',
    doi: '10.1017/RDC.2020.41',
    licence: LICENCE,
    youngest_cal_bp: 0,
    oldest_cal_bp: 55_000,
    rows: 9501,
  },
  shcal20: {
    label: 'SHCal20',
    of: 'Southern Hemisphere atmosphere',
    citation:
      'Hogg A.G. et al. 2020. SHCal20 Southern Hemisphere calibration, 0–55,000 years cal BP. Radiocarbon 62:759–778.',
    doi: '10.1017/RDC.2020.59',
    licence: LICENCE,
    youngest_cal_bp: 0,
    oldest_cal_bp: 55_000,
    rows: 9501,
  },
  marine20: {
    label: 'Marine20',
    of: 'global-average surface ocean, not for polar seas',
    citation:
      'Heaton T.J. et al. 2020. Marine20 — the marine radiocarbon age calibration curve (0–55,000 cal BP). Radiocarbon 62:779–820.',
    doi: '10.1017/RDC.2020.68',
    licence: LICENCE,
    youngest_cal_bp: 0,
    oldest_cal_bp: 55_000,
    rows: 5501,
  },
};

const HUA_2022 = {
  citation: 'Hua Q. et al. 2022. Atmospheric radiocarbon for the period 1950–2019. Radiocarbon 64:723–745.',
  doi: '10.1017/RDC.2021.95',
  licence: LICENCE,
};

/** Curves of the bomb years; the years before them are those of `before`. */
export const BOMB_CURVES: Record<
  BombName,
  {
    label: string;
    of: string;
    before: 'intcal20' | 'shcal20';
    citation: string;
    doi: string;
    licence: string;
    rows: number;
  }
> = {
  bomb21_nh1: {
    label: 'Bomb21 NH1',
    of: 'Northern Hemisphere zone 1',
    before: 'intcal20',
    ...HUA_2022,
    rows: 939,
  },
  bomb21_nh2: {
    label: 'Bomb21 NH2',
    of: 'Northern Hemisphere zone 2',
    before: 'intcal20',
    ...HUA_2022,
    rows: 939,
  },
  bomb21_nh3: {
    label: 'Bomb21 NH3',
    of: 'Northern Hemisphere zone 3',
    before: 'intcal20',
    ...HUA_2022,
    rows: 939,
  },
  bomb21_sh1_2: {
    label: 'Bomb21 SH1–2',
    of: 'Southern Hemisphere zones 1 and 2',
    before: 'shcal20',
    ...HUA_2022,
    rows: 936,
  },
  bomb21_sh3: {
    label: 'Bomb21 SH3',
    of: 'Southern Hemisphere zone 3',
    before: 'shcal20',
    ...HUA_2022,
    rows: 936,
  },
};

/** Every name `loadCurve` takes. */
export const CURVE_NAMES = [...Object.keys(CURVES), ...Object.keys(BOMB_CURVES)] as readonly CurveName[];

export const isCurveName = (name: string): name is CurveName =>
  Object.hasOwn(CURVES, name) || isBombName(name);
const isBombName = (name: string): name is BombName => Object.hasOwn(BOMB_CURVES, name);

// Spelled out, so that a bundler sees each import and splits there.
const MODULES: Record<CurveName, () => Promise<{ curve: EncodedCurve }>> = {
  intcal20: () => import('./intcal20.ts'),
  shcal20: () => import('./shcal20.ts'),
  marine20: () => import('./marine20.ts'),
  bomb21_nh1: () => import('./bomb21-nh1.ts'),
  bomb21_nh2: () => import('./bomb21-nh2.ts'),
  bomb21_nh3: () => import('./bomb21-nh3.ts'),
  bomb21_sh1_2: () => import('./bomb21-sh1-2.ts'),
  bomb21_sh3: () => import('./bomb21-sh3.ts'),
};

/** The published rows. */
export async function curveRows(name: YearName): Promise<CurveRows> {
  const { curve } = await MODULES[name]();
  const rows = CURVES[name].rows;
  return {
    cal_bp: places(curve, rows),
    c14_age: decodeDifferences(curve.c14_age, rows),
    sigma_yr: decodeDifferences(curve.sigma_yr, rows),
  };
}

/** The monthly rows of a post-bomb curve; year ±0.0001, F14C to 5 decimals as tabulated. */
export async function bombRows(name: BombName): Promise<BombCurve> {
  const { curve } = await MODULES[name]();
  const rows = BOMB_CURVES[name].rows;
  const c14_age = decodeDifferences(curve.c14_age, rows);
  const sigma_yr = decodeDifferences(curve.sigma_yr, rows);
  const f14c = c14_age.map((age) => exp(-age / 8033));
  return {
    // Steps of half months, counted from the year 0.
    year_ce: places(curve, rows).map((halves) => halves / 24),
    c14_age,
    sigma_yr,
    f14c,
    f14c_sigma: f14c.map((f, i) => (f * sigma_yr[i]!) / 8033),
  };
}

const yearly = new Map<CurveName, Promise<YearlyCurve>>();

/**
 * The curve on its yearly grid; one of the bomb years is its atmosphere before, and its months. One object per curve,
 * shared: do not write to it.
 */
export function loadCurve(name: CurveName): Promise<YearlyCurve> {
  let curve = yearly.get(name);
  if (curve === undefined) {
    curve = isBombName(name) ? withMonths(name) : curveRows(name).then((rows) => onWholeYears(name, rows));
    yearly.set(name, curve);
  }
  return curve;
}

/** Several at once, by name. */
export async function loadCurves<Name extends CurveName>(
  names: readonly Name[],
): Promise<Record<Name, YearlyCurve>> {
  const curves = await Promise.all(names.map(async (name) => [name, await loadCurve(name)] as const));
  return Object.fromEntries(curves) as Record<Name, YearlyCurve>;
}

async function withMonths(name: BombName): Promise<YearlyCurve> {
  const [before, { year_ce, f14c, f14c_sigma }] = await Promise.all([
    loadCurve(BOMB_CURVES[name].before),
    bombRows(name),
  ]);
  return { ...before, name, months: { year_ce, f14c, f14c_sigma } };
}

function places(curve: EncodedCurve, rows: number): Float64Array {
  const at = new Float64Array(rows);
  at[0] = curve.first;
  let n = 1;
  for (const [step, count] of curve.steps) for (let k = 0; k < count; k++, n++) at[n] = at[n - 1]! + step;
  return at;
}
