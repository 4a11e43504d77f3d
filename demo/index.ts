/** The invented campaign, the generator that makes it, and its known truth. */
import { newDocument, withRows, writeFiles } from '@stillstand/campaign/document';
import { type DemoCurves, type HiddenErrors, type HoleTruth, makeCampaign } from './campaign.ts';
import type { SampleTruth } from './dating.ts';
import type { EnvironmentTruth } from './environments.ts';
import { TRUE_LEAD } from './gamma.ts';
import type { LaboratoryTruth } from './laboratory.ts';
import { trueLevel, trueRate } from './sea.ts';

export { DEMO_SEED } from './seed.ts';

export interface DemoTruth {
  /** Relative sea level, metres above mean sea level of 1993–2011. */
  level_m(age_cal_bp: number): number;
  /** mm/yr, positive for a rising sea. */
  rate_mm_yr(age_cal_bp: number): number;
  /** Mean rate from the older age to the younger, mm/yr. */
  mean_rate_mm_yr(older_cal_bp: number, younger_cal_bp: number): number;
  hidden: HiddenErrors;
  holes: HoleTruth[];
  samples: SampleTruth[];
  environments: EnvironmentTruth;
  /** Of each value measured on slices of T3. */
  laboratory: LaboratoryTruth[];
  /** Age of each depth below the ground in the top of the marsh, where its lead-210 was measured. */
  marsh: { hole: string; supply_bq_m2_yr: number; age_cal_bp(depth_m: number): number };
}

/**
 * The demo campaign: the files of its folder (`datapackage.json` and CSV tables) and what is true of it. The same seed
 * gives the same bytes. `published` holds the calibration curves that stand in for nature.
 */
export function demoCampaign(
  seed: number,
  published: DemoCurves,
): { files: Map<string, Uint8Array>; truth: DemoTruth } {
  const made = makeCampaign(seed, published);
  let document = newDocument(made.name, 'd3000000-0000-4000-8000-000000000001');
  for (const [table, rows] of made.sheets.rows) document = withRows(document, table, rows);
  return {
    files: writeFiles(document),
    truth: {
      level_m: trueLevel,
      rate_mm_yr: trueRate,
      mean_rate_mm_yr: (older, younger) =>
        ((trueLevel(younger) - trueLevel(older)) / (older - younger)) * 1000,
      hidden: made.hidden,
      holes: made.holes,
      samples: made.samples,
      environments: made.environments,
      laboratory: made.laboratory,
      marsh: {
        hole: made.marsh.hole,
        supply_bq_m2_yr: TRUE_LEAD.supply_bq_m2_yr,
        age_cal_bp: made.marsh.growth.age_cal_bp,
      },
    },
  };
}
