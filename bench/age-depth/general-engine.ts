/**
 * Age against depth in one hole, and by a general engine for Bayesian models, JAGS (Plummer 2003, Proc. DSC; in Debian), one
 * chain on one core, the same dates and the same model in `general-engine.bug`: effective draws a second, warm-up counted on
 * both sides, of what settles last among s, L and the ages of the dated horizons; and how far their means lie apart, which
 * checks both. Dates are all but never out of place and depths exact, as the general engine has no states of a hole.
 */
import { join } from 'node:path';
import { essBulk, mean, randomStream, standardDeviation } from '@stillstand/science/base';
import { ageDepthDefaults, ageDepthWithDraws } from '@stillstand/science/dating';
import {
  type BesideGeneralEngine,
  beside,
  inGeneralEngine,
  isGeneralEngineThere,
  numbersInR,
} from '../general-engine.ts';
import { steadyHole } from './index.ts';

export interface AgeDepthGeneralBench extends BesideGeneralEngine {
  dates: number;
}

/** Draws of the general engine, after as many to warm up as the first number says. */
const SIZES = [
  { dates: 10, warmUp: 5000, draws: 40_000 },
  { dates: 30, warmUp: 5000, draws: 40_000 },
] as const;
const SETTINGS = { ...ageDepthDefaults, outlier: 1e-9 };

/** Null where the engine is not installed. */
export function benchAgeDepthGeneral(): AgeDepthGeneralBench[] | null {
  if (!isGeneralEngineThere()) return null;
  return SIZES.map(({ dates, warmUp, draws }) => {
    const input = steadyHole(dates, 1);
    // The first warms the engine up.
    ageDepthWithDraws(steadyHole(10, 1), SETTINGS, randomStream(1));
    const started = performance.now();
    const run = ageDepthWithDraws(input, SETTINGS, randomStream(dates));
    const seconds = (performance.now() - started) / 1000;
    if (run.kind !== 'run') throw new Error(run.reason);
    const named = new Map(run.quantities.map(({ name, chains }) => [name, chains]));
    const theirs = general(input, warmUp, draws);
    const compared = [
      ...input.horizons.map(({ id }, i) => ({ ours: named.get(`age of ${id}`)!, theirs: theirs.ages[i]! })),
      { ours: named.get('variation of accumulation')!.map(logs), theirs: theirs.log_s },
      { ours: named.get('persistence of accumulation')!.map(logs), theirs: theirs.log_l },
    ].map(({ ours, theirs: other }) => {
      const all = Float64Array.from(ours.flatMap((chain) => [...chain]));
      const own = essBulk(ours);
      const general = essBulk([other]);
      const error = Math.hypot(
        standardDeviation(all) / Math.sqrt(own),
        standardDeviation(other) / Math.sqrt(general),
      );
      return { own, general, apart: Math.abs(mean(all) - mean(other)) / error };
    });
    const least = Math.min(...compared.map(({ own }) => own));
    const theirLeast = Math.min(...compared.map(({ general }) => general));
    return {
      dates,
      ...beside(
        { seconds, least },
        { seconds: theirs.seconds, least: theirLeast },
        Math.max(...compared.map(({ apart }) => apart)),
      ),
    };
  });
}

const logs = (values: Float64Array): Float64Array => values.map(Math.log);

interface Theirs {
  ages: Float64Array[];
  log_s: Float64Array;
  log_l: Float64Array;
  seconds: number;
}

function general(input: ReturnType<typeof steadyHole>, warmUp: number, draws: number): Theirs {
  const { sections } = SETTINGS;
  const thickness = input.bottom_m / sections;
  const section = input.horizons.map(({ depth_m }) => Math.floor(depth_m[0]! / thickness));
  const mu0 = Math.log(1000 / SETTINGS.accumulation_mm_yr);
  const log_s0 = Math.log(SETTINGS.variation);
  const log_l0 = Math.log(SETTINGS.persistence_m);
  const { drawsOf, seconds } = inGeneralEngine({
    model: join(import.meta.dirname, 'general-engine.bug'),
    data: {
      sections,
      thickness,
      dates: input.horizons.length,
      section: numbersInR(section.map((j) => j + 1)),
      below: numbersInR(input.horizons.map(({ depth_m }, i) => depth_m[0]! - section[i]! * thickness)),
      read: numbersInR(input.horizons.map(({ age }) => age.from_cal_bp + (age.density.length - 1) / 2)),
      read_sd: 60,
      ground0: input.surface.age_cal_bp,
      ground_sd: input.surface.sd_yr,
      mu0,
      mu_sd: SETTINGS.accumulation_log_sd,
      log_s0,
      log_s_sd: SETTINGS.variation_log_sd,
      log_l0,
      log_l_sd: SETTINGS.persistence_log_sd,
    },
    start: { mu: mu0 - 0.2, log_s: log_s0, log_l: log_l0 },
    monitored: ['log_s', 'log_l', 'age'],
    warmUp,
    draws,
  });
  return {
    ages: input.horizons.map((_, i) => drawsOf(`age[${i + 1}]`)),
    log_s: drawsOf('log_s'),
    log_l: drawsOf('log_l'),
    seconds,
  };
}
