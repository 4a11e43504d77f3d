/** What a figure of a lead-210 profile says in words. */
import type { LeadProfileResult } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';
import type { Warning } from '../figure.tsx';

export type Model = LeadProfileResult['slices'][number]['ages'][number]['model'];

export const modelsOf = ({ slices }: LeadProfileResult): Model[] =>
  (Object.keys(CALLED) as Model[]).filter((model) =>
    slices.some((slice) => slice.ages.some((ages) => ages.model === model)),
  );

const CALLED: Readonly<Record<Model, string>> = {
  constant_supply: 'constant supply',
  constant_flux: 'constant flux and sedimentation',
  constant_concentration: 'constant initial concentration',
};

export function notes({ supply_bq_m2_yr: supply, mean_rate_mm_yr: rate }: LeadProfileResult): string[] {
  return [
    ...(supply === null ? [] : [`supply ${printed(supply.value)} ±${printed(2 * supply.sigma)} Bq/m²/yr`]),
    ...(rate === null ? [] : [`mean rate ${printed(rate.value, 1)} ±${printed(2 * rate.sigma, 1)} mm/yr`]),
  ];
}

export function warnings(profile: LeadProfileResult): Warning[] {
  const { supply_bq_m2_yr, below_bq_m2, inventory_bq_m2, collected_ce } = profile;
  const caution = (text: string): Warning => ({ kind: 'caution', text });
  return [
    ...(supply_bq_m2_yr === null ? [caution('No age by constant supply')] : []),
    ...(below_bq_m2 === null || inventory_bq_m2 === null
      ? []
      : [
          caution(
            `About ${printed((100 * below_bq_m2.value) / inventory_bq_m2.value)} % of the lead-210 is estimated below the deepest slice`,
          ),
        ]),
    ...(collected_ce === null ? [caution('Date of collection not known')] : []),
  ];
}

export function captionText(profile: LeadProfileResult): string {
  const { supported, surface_excess_bq_kg, horizons, slices } = profile;
  const models = modelsOf(profile);
  const LINES: Readonly<Record<Model, string>> = {
    constant_supply: 'line',
    constant_flux: 'dashes',
    constant_concentration: 'dots',
  };
  const from = { stated: 'as stated', each_slice: 'of each slice', tail: 'from the deepest slices' };
  return [
    'Bars across: slices, with their 95 %.',
    slices.some(({ slice }) => slice === null) ? 'Dotted excess: estimated between slices.' : '',
    slices.some(
      ({ caesium_bq_kg, caesium_sigma_bq_kg }) => caesium_bq_kg !== null && caesium_sigma_bq_kg === null,
    )
      ? 'Dotted caesium-137: a limit, not detected.'
      : '',
    supported === null
      ? ''
      : `Supported lead-210 ${printed(supported.bq_kg, 1)} Bq/kg, ${from[supported.from]}, is subtracted.`,
    surface_excess_bq_kg === null ? '' : 'Broken curve: constant flux and sedimentation fitted.',
    models.length === 0
      ? ''
      : `Ages by ${models.map((model) => `${CALLED[model]} (${LINES[model]})`).join(', ')}; bars are the 95 % of constant supply.`,
    horizons.length === 0
      ? ''
      : 'Squares: caesium-137 onset 1954 and peak 1963, with the 95 % of their depths.',
    'Years before collection. ± is 2 sd.',
  ]
    .filter((part) => part !== '')
    .join(' ');
}
