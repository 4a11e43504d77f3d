/**
 * Holes of known truth with a clock of every kind: lead-210 from the ground down, radiocarbon on a curve of its own, luminescence
 * by dose and rate and as it is stated, a uranium series, a marker that is even over a range and one of a skewed table. What is
 * measured is drawn from the truth as each clock says it is.
 */
import { exp, type RandomStream } from '@stillstand/science/base';
import {
  type AgeDepthSettings,
  calibrate,
  type DatedHorizon,
  evenAge,
  normalAge,
  weightedAge,
  type YearlyCurve,
} from '@stillstand/science/dating';
import { type LeadPrior, leadDefaults, leadLikelihood } from '@stillstand/science/lead';
import { luminescenceYears } from '@stillstand/science/luminescence';
import { DECAY_CONSTANTS, uraniumYears } from '@stillstand/science/uranium';
import { drawHole, type SimulatedHole } from './simulated-hole.ts';

const COLLECTED_CE = 2015;
const YEAR_CAL_BP = 1950 - COLLECTED_CE;

/** Invented: it runs backwards for decades at a time, and beyond every age that a date out of place can have. */
const CURVE: YearlyCurve = (() => {
  const from_cal_bp = -40_000;
  const years = Float64Array.from({ length: 160_000 }, (_, i) => from_cal_bp + i);
  return {
    name: 'invented',
    from_cal_bp,
    c14_age: years.map((t) => t + 80 * Math.sin(t / 35) + 150 * Math.sin(t / 210)),
    sigma_yr: years.map((t) => 14 + 4 * Math.sin(t / 500)),
  };
})();

type Age = DatedHorizon['age'];
/** Null where what is measured gives no age; the hole is drawn again then, for a reason that is seen in its measurements. */
type Clock = (true_cal_bp: number, stream: RandomStream) => Age | null;

const agedOrNot = (made: { kind: string } | ({ kind: 'calibrated' } & Age)): Age | null =>
  'density' in made ? { from_cal_bp: made.from_cal_bp, density: made.density } : null;

const radiocarbon: Clock = (t, stream) => {
  const i = Math.floor(t) - CURVE.from_cal_bp;
  const [a, b, part] = [CURVE.c14_age[i], CURVE.c14_age[i + 1], t - Math.floor(t)];
  if (a === undefined || b === undefined) return null;
  const c14_age = a + part * (b - a) + Math.hypot(25, CURVE.sigma_yr[i]!) * stream.normal();
  return agedOrNot(calibrate({ c14_age, error_yr: 25, offset_yr: 0, offset_sd_yr: 0 }, CURVE));
};

/** Dose 0.15 Gy and rate 0.1 Gy/ka, 1 sigma; true rates far from the ends of what is likely beforehand. */
const doseAndRate: Clock = (t, stream) => {
  const rate = 1.5 + 2 * stream.uniform();
  const dose = ((t - YEAR_CAL_BP) / 1000) * rate + 0.15 * stream.normal();
  return agedOrNot(
    luminescenceYears(
      { value: dose, random: 0.12, systematic: 0.09 },
      { value: rate + 0.1 * stream.normal(), random: 0.1, systematic: 0 },
      COLLECTED_CE,
    ),
  );
};

const stated: Clock = (t, stream) => agedOrNot(normalAge(t + 120 * stream.normal(), 120));

/** δ234U of the sea when it formed, 147 ‰. */
const uranium: Clock = (t, stream) => {
  const decay = DECAY_CONSTANTS.cheng2013;
  const { lambda230, lambda234 } = decay;
  const age = t - YEAR_CAL_BP;
  const excess = 0.147 * exp(-lambda234 * age);
  const grown = (lambda230 / (lambda230 - lambda234)) * (1 - exp(-(lambda230 - lambda234) * age));
  const ratio = 1 - exp(-lambda230 * age) + excess * grown;
  const ratios = {
    th230_u238: { value: ratio + 0.0006 * stream.normal(), sd: 0.0006 },
    u234_u238: { value: 1 + excess + 0.001 * stream.normal(), sd: 0.001 },
    correlation: 0,
    th230_th232: null,
  };
  return agedOrNot(uraniumYears(ratios, decay, null, COLLECTED_CE));
};

/** Somewhere within 40 years of the truth, every year alike. */
const evenMarker: Clock = (t, stream) => agedOrNot(evenAge(t + 40 * (2 * stream.uniform() - 1), 40));

/** A triangle from 60 years younger to 240 older than what is told of it, likeliest at its young end. */
const skewedMarker: Clock = (t, stream) => {
  const off = 300 * (1 - Math.sqrt(1 - stream.uniform())) - 60;
  const told = t - off;
  return agedOrNot(
    weightedAge([
      { age_cal_bp: told - 60, weight: 2 },
      { age_cal_bp: told + 240, weight: 0 },
    ]),
  );
};

/** In the order of the dates of a hole, which lie anywhere. */
export const CLOCKS = [
  radiocarbon,
  doseAndRate,
  uranium,
  evenMarker,
  radiocarbon,
  stated,
  skewedMarker,
] as const;

/** Slices of 2 cm; dry density 0.5 g/cm³, errors 5 Bq/kg, supported activity known to 1 Bq/kg. */
const SLICES_M = Array.from({ length: 16 }, (_, i) => 0.02 * i);
const DENSITY_G_CM3 = 0.5;
const SIGMA_BQ_KG = 5;
const SUPPORTED = { bq_kg: 20, sigma_bq_kg: 1 };
/** Narrower than the usual one, so that no supply is below 0. */
const PRIOR: LeadPrior = { supply_bq_m2_yr: { mean: 150, sigma: 35 }, scatter: 0.1 };
const LAMBDA = Math.LN2 / leadDefaults.half_life_yr.value;

function lead(hole: SimulatedHole, stream: RandomStream) {
  const { mean, sigma } = PRIOR.supply_bq_m2_yr;
  const supply = mean + sigma * stream.normal();
  const supported = SUPPORTED.bq_kg + SUPPORTED.sigma_bq_kg * stream.normal();
  const slices = SLICES_M.slice(1).map((bottom_m, i) => {
    const top_m = SLICES_M[i]!;
    const [from, to] = [top_m, bottom_m].map((d) => hole.age_cal_bp(d) - YEAR_CAL_BP) as [number, number];
    const share =
      (exp(-LAMBDA * from) - exp(-LAMBDA * to)) / (LAMBDA * 1000 * DENSITY_G_CM3 * (bottom_m - top_m));
    const laid = (supply + PRIOR.scatter * mean * stream.normal()) * share;
    const total = { bq_kg: laid + supported + SIGMA_BQ_KG * stream.normal(), sigma_bq_kg: SIGMA_BQ_KG };
    const rest = { supported: null, density_g_cm3: DENSITY_G_CM3, caesium: null };
    return { id: `S${i + 1}`, top_m, bottom_m, total, ...rest };
  });
  return leadLikelihood({ slices, supported: SUPPORTED, collected_ce: COLLECTED_CE }, PRIOR, {
    half_life_yr: leadDefaults.half_life_yr,
  }).likelihood;
}

/** The hole with its profile; and how many were drawn in vain before it. */
export function holeOfEveryClock(
  settings: AgeDepthSettings,
  breaks: number,
  stream: RandomStream,
): { hole: SimulatedHole; refused: number } {
  for (let refused = 0; refused < 1000; refused++) {
    const of = stream.split(refused);
    let isWhole = true;
    const hole = drawHole(
      settings,
      {
        bottom_m: 3,
        dates: CLOCKS.length,
        sd_yr: 0,
        shift_m: 0.02,
        own_m: 0.01,
        breaks,
        slices_m: SLICES_M,
        ground: { age_cal_bp: YEAR_CAL_BP, sd_yr: 0 },
        read: (i, t, own) => {
          const age = CLOCKS[i]!(t, own);
          if (age === null) isWhole = false;
          return age ?? { from_cal_bp: 0, density: Float64Array.of(1) };
        },
      },
      of,
    );
    const likelihood = lead(hole, of);
    if (!isWhole || likelihood === null) continue;
    return {
      hole: { ...hole, input: { ...hole.input, profiles: [{ id: 'lead', ...likelihood }] } },
      refused,
    };
  }
  throw new Error('no hole of a thousand has an age from each clock');
}
