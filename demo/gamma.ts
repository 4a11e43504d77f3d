/**
 * A block of the marsh's top, cut out beside a hole, sliced, and counted for lead-210, radium-226 and caesium-137: a constant
 * supply of lead-210 on the true growth, and what a laboratory sends of it. Activities in Bq/kg of dry peat at coring.
 */
import { exp, type RandomStream, square } from '@stillstand/science/base';
import type { MarshGrowth } from './marsh-growth.ts';
import { plain, type Sheets } from './sheet.ts';

/** Far from land (common practice, no source), Bq/m²/yr; supported lead-210, Bq/kg. */
export const TRUE_LEAD = { supply_bq_m2_yr: 95, supported_bq_kg: 17 } as const;

/** Decay, 1/yr: half-lives of 22.2 and 30.1 yr (from memory). */
const LEAD_DECAY = Math.LN2 / 22.2;
const CAESIUM_DECAY = Math.LN2 / 30.1;

/**
 * Fallout of the southern hemisphere, Bq/m² in each year when it fell: later than in the north, and drawn out to 1974
 * (common practice, no source).
 */
const FALLOUT_FROM_CE = 1954;
const FALLOUT_BQ_M2 = [
  8, 16, 20, 24, 32, 30, 18, 18, 26, 38, 64, 56, 28, 18, 15, 14, 15, 14, 8, 6, 8,
] as const;

interface Cut {
  top_cm: number;
  bottom_cm: number;
}
const oneBy = (from: number, to: number, by: number): Cut[] =>
  Array.from({ length: (to - from) / by }, (_, i) => ({
    top_cm: from + i * by,
    bottom_cm: from + (i + 1) * by,
  }));
/** 11–12 cm went for plant remains and was never counted. */
const CUTS = [...oneBy(0, 11, 1), ...oneBy(12, 16, 1), ...oneBy(16, 22, 2)];
/** Of this slice too little was left for a good count: lead-210 is a limit, radium was not determined. */
const SMALL_FROM_CM = 14;
const SMALL_LIMIT_BQ_KG = 28;
/** Caesium below this is reported as a limit: from, to, by the time and mass that were counted. */
const CAESIUM_LIMITS_BQ_KG = [0.9, 1.6] as const;

/** Dry bulk density of peat that settles, g/cm³ (common practice, no source: 0.1 to 0.4). */
const densityAt = (depth_m: number): number => 0.34 - 0.17 * exp(-depth_m / 0.08);

/** Writes the measurements of all slices in a hole, and the profile they are. */
export function countBlock(
  {
    hole,
    profile,
    collected,
    growth,
  }: { hole: string; profile: string; collected: string; growth: MarshGrowth },
  sheets: Sheets,
  random: RandomStream,
): void {
  for (const cut of CUTS) {
    const [top_m, bottom_m] = [cut.top_cm / 100, cut.bottom_cm / 100];
    const stream = random.split(`${cut.top_cm}`);
    const density = densityAt((top_m + bottom_m) / 2);
    // 1 g/cm³ over 1 m is 1000 kg/m².
    const mass_kg_m2 = 1000 * density * (bottom_m - top_m);
    const [young, old] = [growth.before_yr(top_m), growth.before_yr(bottom_m)];
    const { supply_bq_m2_yr, supported_bq_kg } = TRUE_LEAD;
    const excess =
      (supply_bq_m2_yr * (exp(-LEAD_DECAY * young) - exp(-LEAD_DECAY * old))) / LEAD_DECAY / mass_kg_m2;
    const caesium = caesiumBetween(growth, top_m, bottom_m) / mass_kg_m2;
    const isSmall = cut.top_cm === SMALL_FROM_CM;
    const write = (
      property: string,
      unit: string,
      method: string,
      reading: { value?: string; sigma?: string; qualifier?: string },
    ): void => {
      sheets.write('measurements', {
        hole,
        depth_basis: 'in_situ',
        top: `${cut.top_cm} cm`,
        bottom: `${cut.bottom_cm} cm`,
        batch: 'marsh block',
        property,
        ...reading,
        unit,
        method,
      });
    };
    const activity = (property: string, reading: Parameters<typeof write>[3]): void =>
      write(property, 'Bq/kg', 'gamma', reading);
    const counted = (property: string, true_bq_kg: number, sigma_bq_kg: number, limit_bq_kg = 0): void => {
      const value = true_bq_kg + sigma_bq_kg * stream.split(property).normal();
      if (value < limit_bq_kg) activity(property, { value: plain(limit_bq_kg, 1), qualifier: 'less_than' });
      else activity(property, { value: plain(value, 1), sigma: plain(sigma_bq_kg, 1) });
    };
    if (isSmall) {
      activity('total lead-210', { value: plain(SMALL_LIMIT_BQ_KG, 0), qualifier: 'less_than' });
      activity('radium-226', { qualifier: 'not_determined' });
    } else {
      const total = excess + supported_bq_kg;
      counted('total lead-210', total, Math.sqrt(square(3) + square(0.04 * total)));
      counted('radium-226', supported_bq_kg, 1.4);
    }
    const [least, most] = CAESIUM_LIMITS_BQ_KG;
    const limit_bq_kg = least + (most - least) * stream.split('limit').uniform();
    counted('caesium-137', caesium, Math.sqrt(square(0.4) + square(0.03 * caesium)), limit_bq_kg);
    write('dry density', 'g/cm3', 'weighed', { value: plain(density, 3) });
  }
  sheets.write('lead_profiles', { profile, hole, collected });
}

/** How long what was washed in later took, yr, and what share it is; how much moves up and down in peat, and how far, m (invented). */
const WASHED_IN = { share: 0.3, in_yr: 25 } as const;
const MOVED = { up: 0.15, down: 0.25, by_m: 0.01 } as const;

/** Caesium-137 left at coring of what fell, was washed in and moved, between two depths, Bq/m². */
function caesiumBetween(growth: MarshGrowth, top_m: number, bottom_m: number): number {
  const { up, down, by_m } = MOVED;
  const years = arrivals(growth.cored_ce);
  const between = (from_m: number, to_m: number): number => {
    const [young, old] = [growth.before_yr(Math.max(0, from_m)), growth.before_yr(Math.max(0, to_m))];
    let sum = 0;
    for (const { before_yr, left } of years)
      sum += left * Math.max(0, Math.min(old, before_yr + 1) - Math.max(young, before_yr));
    return sum;
  };
  // What would have moved out at the top stays in it.
  const upper = top_m === 0 ? -by_m : top_m;
  return (
    (1 - up - down) * between(top_m, bottom_m) +
    up * between(upper + by_m, bottom_m + by_m) +
    down * between(top_m - by_m, bottom_m - by_m)
  );
}

/** By the year before coring in which it came to the marsh: what is left of it, Bq/m². */
function arrivals(cored_ce: number): { before_yr: number; left: number }[] {
  const { share, in_yr } = WASHED_IN;
  return FALLOUT_BQ_M2.flatMap((fell, i) => {
    const before_yr = cored_ce - FALLOUT_FROM_CE - i - 1;
    const left = fell * exp(-CAESIUM_DECAY * (before_yr + 0.5));
    const later = Array.from({ length: Math.floor(before_yr) }, (_, k) => ({
      before_yr: before_yr - k - 1,
      left: left * share * (exp(-k / in_yr) - exp(-(k + 1) / in_yr)),
    }));
    return [{ before_yr, left: left * (1 - share) }, ...later];
  });
}
