/** Laboratory values, each with its depth and elevation. */
import { type MeasurementResult, resultsShape } from '@stillstand/campaign/results';
import { plusMinus, shownAs } from './described.ts';
import { itself, table } from './table.ts';

const { measurements } = resultsShape.fields;

export const MEASUREMENTS = table({
  file: 'measurements.csv',
  entry: 'measurements[]',
  about: measurements.of.about,
  shape: measurements.of,
  rows: (results) => results.measurements,
  read: itself<MeasurementResult>,
  plan: {
    shown: {
      value: shownAs('value', { decimals: ({ value }) => decimalsTyped(value) }),
      sigma: shownAs('value_1sigma', { decimals: ({ sigma }) => decimalsTyped(sigma) }),
      thickness_m: shownAs('thickness_m', { decimals: 3 }),
      elevation_m: plusMinus(),
    },
  },
});

/** As many as its shortest form has: a laboratory's value is not rounded. At most 12. */
export function decimalsTyped(value: number | null): number {
  const [digits = '', exponent = '0'] = String(value ?? 0).split('e');
  const decimals = (digits.split('.')[1]?.length ?? 0) - Number(exponent);
  return Math.min(12, Math.max(0, decimals));
}
