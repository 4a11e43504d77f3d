/** Tide levels that follow from harmonic constants alone. */
import { square } from '@stillstand/science/base';
import { highAndLowWaters, type TideExtreme, tabulatedExtremes } from './extremes.ts';
import { waterSigmas } from './level-errors.ts';
import { higherHighs, lowerLows, type MeanLevels, meanLevels } from './levels.ts';
import { constantErrors, type TidalConstant, type Tide, tideCurve } from './prediction.ts';

export interface AstronomicalExtremes {
  HAT_m: number;
  LAT_m: number;
  /** When, UTC. */
  HAT_ms: number;
  LAT_ms: number;
}

/** Years that hold the whole 18.6-year turn of the node. */
const YEARS = 19;

/**
 * Highest and lowest astronomical tide: extremes of the prediction over 19 calendar years from 1 January of
 * `first_year` (1983 to 2001 for the US tidal epoch). Null for a tide without constituents.
 */
export function astronomicalExtremes(tide: Tide, first_year: number): AstronomicalExtremes | null {
  const waters = epochWaters(tide, first_year);
  return waters.length === 0 ? null : extremesOf(waters);
}

const epochWaters = (tide: Tide, first_year: number): TideExtreme[] =>
  highAndLowWaters(tideCurve(tide), Date.UTC(first_year, 0, 1), Date.UTC(first_year + YEARS, 0, 1));

function extremesOf(waters: readonly TideExtreme[]): AstronomicalExtremes {
  const highest = waters.reduce((a, b) => (b.height_m > a.height_m ? b : a));
  const lowest = waters.reduce((a, b) => (b.height_m < a.height_m ? b : a));
  return {
    HAT_m: highest.height_m,
    LAT_m: lowest.height_m,
    HAT_ms: highest.time_ms,
    LAT_ms: lowest.time_ms,
  };
}

/** Levels that a tide has by itself, on the zero of its mean. */
export type PredictedLevels = Pick<AstronomicalExtremes, 'HAT_m' | 'LAT_m'> &
  Omit<MeanLevels, 'MHW_sigma_m' | 'MLW_sigma_m' | 'highs' | 'lows' | 'days'> &
  ReturnType<typeof springsAndNeaps> & {
    MSL_m: number;
    /** 1 sigma of each level: of the method, the constants and the mean level together. */
    sigma_m: Readonly<Record<PredictedLevel, number>>;
  };

type PredictedLevel =
  | ('HAT' | 'LAT' | 'MSL' | 'MHWS' | 'MHWN' | 'MLWN' | 'MLWS')
  | ('MHW' | 'MLW' | 'MHHW' | 'MLLW' | 'MTL' | 'DTL');

/** How far levels predicted from published constants were found from accepted ones at two stations, at most: docs/methods/tide.md. */
const EXTREME_SIGMA_M = 0.02;
const MEAN_SIGMA_M = 0.04;

/** All levels of the prediction over 19 calendar years from 1 January of `first_year`; null without a tide. */
export function predictedLevels(tide: Tide, first_year: number): PredictedLevels | null {
  const waters = epochWaters(tide, first_year);
  const tabulated = tabulatedExtremes(waters);
  const means = meanLevels(tabulated);
  if (means === null) return null;
  const { HAT_m, LAT_m, HAT_ms, LAT_ms } = extremesOf(waters);
  const { MHW_m, MLW_m, MHHW_m, MLLW_m, MTL_m, DTL_m, MN_m, GT_m, DHQ_m, DLQ_m } = means;
  return {
    ...{ HAT_m, LAT_m, MHW_m, MLW_m, MHHW_m, MLLW_m, MTL_m, DTL_m, MN_m, GT_m, DHQ_m, DLQ_m },
    ...springsAndNeaps(tide),
    MSL_m: tide.mean_m,
    sigma_m: sigmasOf(tide, tabulated, { HAT_ms, LAT_ms }),
  };
}

/** Errors of the constants and the mean level, beside those of the method. */
function sigmasOf(
  tide: Tide,
  waters: readonly TideExtreme[],
  { HAT_ms, LAT_ms }: Pick<AstronomicalExtremes, 'HAT_ms' | 'LAT_ms'>,
): Record<PredictedLevel, number> {
  const highs = waters.filter(({ kind }) => kind === 'high');
  const lows = waters.filter(({ kind }) => kind === 'low');
  const sized = (name: string): number => {
    const constant = constantNamed(tide.constants, name);
    return constant === undefined ? 0 : square(constantErrors(constant).along_m);
  };
  const mean = tide.mean_sigma_m ?? 0;
  const conventional = Math.sqrt(square(mean) + sized('M2') + sized('S2'));
  const sigmaOf = waterSigmas(tide);
  const higher = higherHighs(highs);
  const lower = lowerLows(lows);
  const ofConstants: Record<PredictedLevel, number> = {
    HAT: sigmaOf([{ time_ms: HAT_ms }]),
    LAT: sigmaOf([{ time_ms: LAT_ms }]),
    MHW: sigmaOf(highs),
    MLW: sigmaOf(lows),
    MHHW: sigmaOf(higher),
    MLLW: sigmaOf(lower),
    MTL: sigmaOf(highs, lows),
    DTL: sigmaOf(higher, lower),
    MSL: mean,
    ...{ MHWS: conventional, MHWN: conventional, MLWN: conventional, MLWS: conventional },
  };
  const total = (level: PredictedLevel): [PredictedLevel, number] => [
    level,
    Math.sqrt(
      square(ofConstants[level]) +
        square(level === 'HAT' || level === 'LAT' ? EXTREME_SIGMA_M : MEAN_SIGMA_M),
    ),
  ];
  return Object.fromEntries((Object.keys(ofConstants) as PredictedLevel[]).map(total)) as Record<
    PredictedLevel,
    number
  >;
}

const constantNamed = (constants: readonly TidalConstant[], name: string): TidalConstant | undefined =>
  constants.find(({ constituent }) => constituent.trim().toUpperCase() === name);

const amplitude = (constants: readonly TidalConstant[], name: string): number =>
  constantNamed(constants, name)?.amplitude_m ?? 0;

/**
 * Mean high and low waters of springs and neaps by the harmonic convention, mean ± (M2 ± S2): Pugh 1987, Tides, Surges
 * and Mean Sea-Level (from memory). A convention for semidiurnal tides: it leaves out shallow-water tides, and differs
 * from waters averaged in a table by some centimetres.
 */
export function springsAndNeaps(tide: Tide): {
  MHWS_m: number;
  MHWN_m: number;
  MLWN_m: number;
  MLWS_m: number;
} {
  const springs = amplitude(tide.constants, 'M2') + amplitude(tide.constants, 'S2');
  const neaps = amplitude(tide.constants, 'M2') - amplitude(tide.constants, 'S2');
  return {
    MHWS_m: tide.mean_m + springs,
    MHWN_m: tide.mean_m + neaps,
    MLWN_m: tide.mean_m - neaps,
    MLWS_m: tide.mean_m - springs,
  };
}

/**
 * (K1 + O1)/(M2 + S2): below 0.25 semidiurnal, to 1.5 mixed and mainly semidiurnal, to 3 mixed and mainly diurnal,
 * above it diurnal (Defant 1961; from memory). NaN without M2 and S2.
 */
export function formNumber(constants: readonly TidalConstant[]): number {
  const diurnal = amplitude(constants, 'K1') + amplitude(constants, 'O1');
  return diurnal / (amplitude(constants, 'M2') + amplitude(constants, 'S2'));
}
