/** A profile of lead-210 and caesium-137: ages of its slices by three models. */
import { list, number, orNull, record, type ShapeValue, sigma, text, word } from '@stillstand/science/shape';
import { anEstimate, perhapsEstimate, rowId } from './parts.ts';

const model = () =>
  word('constant_supply, constant_concentration (initial), constant_flux (and sedimentation)', [
    'constant_supply',
    'constant_concentration',
    'constant_flux',
  ]);

export const leadProfileShape = record('a profile of lead-210 and caesium-137', {
  row_id: rowId(),
  profile: text('label of the profile'),
  hole: text('label of the hole'),
  collected_ce: orNull(number('date of collection as a decimal year', 'yr CE')),
  supported: orNull(
    record('supported lead-210', {
      from: word('stated, measured in each_slice, or the mean of the tail (deepest slices)', [
        'stated',
        'each_slice',
        'tail',
      ]),
      bq_kg: number('mean over the slices', 'Bq/kg'),
      sigma_bq_kg: sigma('1 sigma', 'Bq/kg'),
      slices: list('slices of the tail', text('slice')),
    }),
  ),
  half_life_yr: number('half-life of lead-210 used', 'yr'),
  inventory_bq_m2: perhapsEstimate('unsupported lead-210 of the whole profile, Bq/m²'),
  below_bq_m2: perhapsEstimate('of it, estimated below the deepest slice, Bq/m²; null: none'),
  supply_bq_m2_yr: perhapsEstimate('supply of lead-210 by constant supply, Bq/m²/yr'),
  surface_excess_bq_kg: perhapsEstimate(
    'unsupported lead-210 at the surface by constant flux and sedimentation, Bq/kg',
  ),
  mean_rate_mm_yr: perhapsEstimate('accumulation by constant flux and sedimentation, mm/yr'),
  mean_rate_g_cm2_yr: perhapsEstimate('dry mass accumulation by constant flux and sedimentation, g/cm²/yr'),
  slices: list(
    'slices and what was estimated between them, from the surface down',
    record('a slice', {
      slice: orNull(text('name of the slice; null: estimated between slices or above them')),
      top_m: number('in-situ depth of its top', 'm'),
      bottom_m: number('in-situ depth of its bottom', 'm'),
      entered_m: orNull(number('its thickness as it entered the pipe', 'm')),
      total_bq_kg: orNull(number('total lead-210, or the limit it is below', 'Bq/kg')),
      total_sigma_bq_kg: orNull(sigma('1 sigma; null: a limit or not measured', 'Bq/kg')),
      caesium_bq_kg: orNull(number('caesium-137, or the limit it is below', 'Bq/kg')),
      caesium_sigma_bq_kg: orNull(sigma('1 sigma; null: a limit or not measured', 'Bq/kg')),
      density_g_cm3: orNull(number('dry density as measured', 'g/cm³')),
      excess_bq_kg: perhapsEstimate('unsupported lead-210, Bq/kg; null: below the last dated slice'),
      rate_mm_yr: perhapsEstimate('accumulation by constant supply, mm/yr'),
      rate_g_cm2_yr: perhapsEstimate('dry mass accumulation by constant supply, g/cm²/yr'),
      ages: list(
        'its ages, one a model that gives it one',
        record('ages by one model', {
          model: model(),
          middle_yr: perhapsEstimate('age of its middle before collection, yr; null: not bounded'),
          base_yr: perhapsEstimate('age of its base before collection, yr; null: not bounded'),
          middle_cal_bp: orNull(number('age of its middle', 'cal BP')),
          base_cal_bp: orNull(number('age of its base', 'cal BP')),
        }),
      ),
    }),
  ),
  horizons: list(
    'horizons of caesium-137',
    record('a horizon', {
      kind: word('peak or onset', ['peak', 'onset']),
      year_ce: number('its year', 'yr CE'),
      year_sigma: sigma('1 sigma of its year', 'yr'),
      slice: text('slice with the most, or the deepest with any'),
      depth_m: anEstimate('in-situ depth, m'),
      models: list(
        'where it falls in each model that reaches it',
        record('in one model', {
          model: model(),
          year_ce: anEstimate('year the model gives its depth, yr CE'),
          difference_in_sd: number('model less horizon, over the sd of both together', 'sd'),
        }),
      ),
    }),
  ),
});
export type LeadProfileResult = ShapeValue<typeof leadProfileShape>;
