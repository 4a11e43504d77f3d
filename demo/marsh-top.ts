/**
 * The top of the outer marsh: a block of peat cut out beside a hole, counted for lead-210 and caesium-137, with the first
 * pollen of trees that were brought to the coast. Made from the true growth of the marsh.
 */

import type { RandomStream } from '@stillstand/science/base';
import { decimalYear } from '@stillstand/science/lead';
import type { SampleTruth } from './dating.ts';
import { countBlock } from './gamma.ts';
import { type MarshGrowth, marshGrowth } from './marsh-growth.ts';
import { trueLevel } from './sea.ts';
import { baseOf, type Place } from './section.ts';
import { plain, type Sheets } from './sheet.ts';

/** When such trees were first planted, as far as anybody wrote it down, CE. */
const PLANTED_CE = { from: 1850, to: 1880 } as const;
/** The block is sliced at whole centimetres. */
const SLICE_M = 0.01;

interface Block {
  hole: string;
  place: Place;
  /** ISO 8601. */
  collected: string;
  /** Of the sample with the pollen, and of its result. */
  sample: string;
  lab_code: string;
}

/** Writes the profile, the sample with the pollen and its age; gives how the marsh grew and the truth of the sample. */
export function sampleMarshTop(
  { hole, place, collected, sample, lab_code }: Block,
  sheets: Sheets,
  stream: RandomStream,
): { growth: MarshGrowth; truth: SampleTruth } {
  const random = stream.split('marsh top');
  const peat = place.layers[0]!;
  const growth = marshGrowth(peat.top_m - baseOf(place, peat), decimalYear(collected));
  countBlock({ hole, profile: `${hole} block`, collected, growth }, sheets, random.split('counts'));

  const { from, to } = PLANTED_CE;
  const planted_ce = from + (to - from) * random.split('pollen').uniform();
  const depth_m = growth.depth_m(growth.cored_ce - planted_ce);
  const top_cm = Math.floor(depth_m / SLICE_M);
  sheets.write('samples', {
    sample,
    hole,
    depth_basis: 'in_situ',
    top: `${top_cm} cm`,
    bottom: `${top_cm + 1} cm`,
    material: 'pollen',
    note: 'from the block cut next to the hole',
  });
  sheets.write('determinations', {
    lab_code,
    sample,
    method: 'marker',
    value: plain(1950 - (from + to) / 2, 0),
    error: plain((to - from) / 2, 0),
    error_shape: 'uniform',
    fraction_dated: `lowest pollen of planted trees, first planted ${from} to ${to}`,
    age_role: 'direct',
    status: 'accepted',
  });
  const age_cal_bp = 1950 - planted_ce;
  const elevation_m = place.ground_m - depth_m;
  const level_m = trueLevel(age_cal_bp);
  return {
    growth,
    truth: {
      sample,
      hole,
      depth_m,
      elevation_m,
      age_cal_bp,
      level_m,
      lowering_m: 0,
      tide_m: elevation_m - level_m,
      is_in_place: true,
    },
  };
}
