/** What the trace says of a lead-210 profile. */
import type { LeadAges } from '@stillstand/science/lead';
import type { Told } from '../runner/step.ts';

export const tellLeadProfile = (profile: string, { supply }: Pick<LeadAges, 'supply'>): Told => ({
  label: `Supply of lead-210 in ${profile}`,
  how: 'unsupported inventory × decay constant, by constant supply',
  value: supply?.supply_bq_m2_yr.value ?? null,
  sigma: supply?.supply_bq_m2_yr.sigma ?? null,
  unit: 'Bq/m²/yr',
});
