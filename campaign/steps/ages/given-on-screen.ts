/** Where a determination that is being typed has its age from, for a screen that shows the age. */
import type { Campaign } from '@stillstand/campaign/document';
import { readSettings } from '@stillstand/campaign/settings';
import type { Row } from '@stillstand/campaign/tables';
import { stepRunner } from '../runner/runner.ts';
import { complainOfMeasurements } from './against-measurements.ts';
import { ageDensities } from './age-densities.ts';
import { factorsAtHand, type Published } from './dates.ts';
import { type GivenAge, givenAge } from './given-age.ts';
import { ageOfMeasurements, type OfMeasurements } from './measured-age.ts';

/** As the computation has it; or, in words, what keeps it from an age. Without a campaign nothing but what is typed is looked at. */
export function givenOnScreen(
  typed: Row<'determinations'>,
  campaign: Campaign | null,
  published: Published,
): Pick<GivenAge, 'row' | 'from' | 'years'> | { why: string } {
  // What is not typed yet is null, whatever the type of a whole row says.
  const row = { ...typed, lab_code: typed.lab_code ?? '', sample: typed.sample ?? '' };
  const run = stepRunner({ computation: 'screen', memo: null });
  const faults: string[] = [];
  const complain = (
    ..._: [
      row: unknown,
      code: string,
      column: string,
      found: string,
      expected: string,
      fix: string,
      severity?: string,
    ]
  ): void => {
    const [, , , found, expected, , severity = 'error'] = _;
    if (severity === 'error')
      faults.push(found === '' ? `It waits for ${expected}.` : `Found “${found}”; expected ${expected}.`);
  };
  let of: OfMeasurements | undefined;
  if (campaign !== null && row.qualifier === null) {
    const measurements = campaign.rows.measurements.filter(({ sample }) => sample === row.sample);
    const sample = campaign.rows.samples.find((each) => each.sample === row.sample);
    const { dose_factors } = readSettings(campaign.rows.settings).settings;
    of = ageOfMeasurements(run, row, measurements, sample, {
      named: factorsAtHand(published, dose_factors),
      // A depth only raises a doubt, which no screen shows while a date is typed.
      depthOf: () => null,
    });
    if (row.age_density === null) complainOfMeasurements(row, of, complain);
  }
  const densities = campaign === null ? { of: new Map(), faulty: new Set<string>() } : ageDensities(campaign);
  return givenAge(row, densities, of, complain) ?? { why: faults[0] ?? 'It has no age.' };
}
