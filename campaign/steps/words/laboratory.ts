/** What the trace says of grain size and of what weights give. */
import type { GrainSizeResult, MeasurementResult } from '@stillstand/campaign/results';
import type { Weighing } from '@stillstand/science/laboratory';
import type { Told } from '../runner/step.ts';

const of = ({ sample, hole }: Pick<MeasurementResult, 'sample' | 'hole'>): string =>
  sample === null ? (hole === null ? '' : ` in ${hole}`) : ` of ${sample}`;

export function tellGrainSize(
  at: MeasurementResult,
  { folk_ward, median_phi, name }: Pick<GrainSizeResult, 'folk_ward' | 'median_phi' | 'name'>,
): Told {
  const named = name === null ? '' : `, ${name}`;
  if (folk_ward !== null)
    return {
      label: `Mean grain size${of(at)}`,
      how: `Folk & Ward 1957, from the classes${named}`,
      value: folk_ward.mean_phi,
      sigma: folk_ward.mean_sigma_phi,
      unit: 'φ',
    };
  return {
    label: `Grain size${of(at)}`,
    how: median_phi === null ? `from the classes${named}` : `median, from the classes${named}`,
    value: median_phi,
    sigma: null,
    unit: median_phi === null ? '' : 'φ',
  };
}

const HOW: Readonly<Record<string, string>> = {
  'loss on ignition': '(dry − burnt)/(dry − pan)',
  'water content': '(wet − dry)/(dry − pan)',
  'dry density': '(dry − pan)/volume',
  'wet density': '(wet − pan)/volume',
};

export const tellWeighed = (
  property: string,
  unit: string,
  { value, sigma }: Weighing,
  at: MeasurementResult,
): Told => ({
  label: `${property[0]!.toUpperCase()}${property.slice(1)}${of(at)}`,
  how: HOW[property]!,
  value,
  sigma,
  unit,
});
