/** Measurements of one analysis: of one sample or place in a core, in one batch. */
import { convertedUnit, type LaboratoryUnit, laboratoryUnit } from '@stillstand/science/laboratory';
import type { MeasurementRow, PlacedMeasurement } from '../hole/measurements.ts';

export type { MeasurementRow };
export type Placed = PlacedMeasurement;

/** Where it lies, as it was typed: two rows that agree in it are of one thing. */
export const placeOf = ({ row }: Placed): string =>
  JSON.stringify(
    row.sample === null ? [row.hole, row.depth_basis, row.run, row.top_m, row.bottom_m] : [row.sample],
  );

export const analysisOf = (placed: Placed): string => `${placeOf(placed)} ${placed.row.batch ?? ''}`;

/** Unit of a measurement; null where it states none, or one that is not known. */
export const unitOf = ({ row }: Placed): LaboratoryUnit | null =>
  row.unit === null ? null : laboratoryUnit(row.unit);

/** Value and sigma in a unit of the same kind. */
export function inUnit(
  { row: { value, sigma } }: Placed,
  from: LaboratoryUnit,
  to: LaboratoryUnit,
): { value: number | null; sigma: number | null } {
  const converted = (number: number | null): number | null =>
    number === null ? null : convertedUnit(number, from, to);
  return { value: converted(value), sigma: converted(sigma) };
}

const known = (unit: string): LaboratoryUnit => laboratoryUnit(unit)!;
export const PERCENT = known('%');
export const GRAMS = known('g');
export const CUBIC_CM = known('cm3');
