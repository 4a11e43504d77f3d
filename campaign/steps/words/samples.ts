/** What the trace says of samples and units. */
import type { Estimate, MeasurementResult, PhotographResult } from '@stillstand/campaign/results';
import { type Elevation, elevationSigma } from '../heights/elevation.ts';
import type { Placed } from '../hole/place.ts';
import type { Told } from '../runner/step.ts';

const lying = (label: string, how: string, depth: Estimate | null): Told => ({
  label,
  how,
  value: depth?.value ?? null,
  sigma: depth?.sigma ?? null,
  unit: 'm',
});

export const tellSampleDepth = (sample: string, { how }: Placed, middle: Estimate): Told =>
  lying(`In-situ depth of ${sample}`, how, middle);

export const tellElevation = (sample: string, how: string, elevation: Estimate | null): Told => ({
  ...lying(`Elevation of ${sample}`, how, elevation),
  signed: true,
});

export const tellSurfaceElevation = (sample: string, elevation: Elevation | null): Told => ({
  label: `Elevation of ${sample}`,
  how: 'as levelled, on the campaign datum',
  value: elevation?.value_m ?? null,
  sigma: elevation === null ? null : elevationSigma(elevation),
  unit: 'm',
  signed: true,
});

export const tellMeasurement = ({
  property,
  sample,
  value,
  sigma,
  unit,
  qualifier,
}: MeasurementResult): Told => ({
  label: sample === null ? property : `${property} of ${sample}`,
  how: qualifier === null ? 'as measured' : QUALIFIED[qualifier],
  value,
  sigma,
  unit: unit ?? '',
});

/** The top of what it shows, as a place to begin. */
export const tellPhotograph = ({ hole, run, slices }: PhotographResult, how: string): Told => ({
  label: `Top of the photograph of ${[hole, run].filter((name) => name !== null).join(' ')}`,
  how,
  value: slices[0]?.depth_from_m ?? null,
  sigma: null,
  unit: 'm',
});

const QUALIFIED = {
  less_than: 'below the value',
  greater_than: 'above the value',
  not_determined: 'not determined',
} as const;
