/** A dose rate of luminescence dating, computed from the contents of the sediment. */
import { list, number, record, type ShapeValue, sigma, text, yesNo } from '@stillstand/science/shape';
import { rowId } from './parts.ts';

const part = (of: string) => number(`part of ${of}`, 'Gy/ka');

export const doseRateShape = record(
  'a dose rate computed from what was measured of the sediment, where no dose rate was measured',
  {
    row_id: rowId(),
    lab_code: text('code of the date it is for'),
    sample: text('sample'),
    rate_gy_ka: number('dose rate', 'Gy/ka'),
    rate_sigma_gy_ka: sigma('1 sigma', 'Gy/ka'),
    shared_sigma_gy_ka: sigma('1 sigma of the part that samples of one place share', 'Gy/ka'),
    alpha_gy_ka: part('alpha radiation'),
    beta_gy_ka: part('beta radiation'),
    gamma_gy_ka: part('gamma radiation'),
    cosmic_gy_ka: part('cosmic radiation'),
    internal_gy_ka: part('radiation from inside the grains'),
    factors: text('name of the table of factors'),
    errors: list(
      'where the error is from, the largest first',
      record('part of the error', {
        of: text('of what'),
        sigma_gy_ka: sigma('1 sigma', 'Gy/ka'),
        shared_sigma_gy_ka: sigma('1 sigma of the part that samples of one place share', 'Gy/ka'),
      }),
    ),
    figures: list(
      'figures of the literature it was computed with',
      record('figures', {
        name: text('what they are'),
        source: text('where they are from'),
        from_memory: yesNo('whether they have not been compared with the print yet'),
      }),
    ),
  },
);
export type DoseRateResult = ShapeValue<typeof doseRateShape>;
