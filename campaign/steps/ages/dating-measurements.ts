/** Which measurements of a sample make a luminescence or uranium-series age, by their names and units. */
import { plainWord, type Row } from '@stillstand/campaign/tables';

type Determination = Row<'determinations'>;
type Measurement = Row<'measurements'>;

/** Methods whose age follows from measurements of the sample. */
export type MeasuredMethod = 'luminescence' | 'u_series';

interface Property {
  name: string;
  units: readonly string[];
  /** Without it there is no age. */
  isNeeded: boolean;
}

const RATIO_UNITS = ['', 'activity ratio'];

const PROPERTIES = {
  luminescence: {
    dose: { name: 'equivalent dose', units: ['Gy'], isNeeded: true },
    rate: { name: 'dose rate', units: ['Gy/ka', 'mGy/yr', 'mGy/a'], isNeeded: true },
  },
  u_series: {
    th230_u238: { name: '230Th/238U', units: RATIO_UNITS, isNeeded: true },
    u234_u238: { name: '234U/238U', units: RATIO_UNITS, isNeeded: true },
    th230_th232: { name: '230Th/232Th', units: RATIO_UNITS, isNeeded: false },
    // The initial ratio of detritus is given in millions of atoms, never as an activity.
    initial: { name: 'initial 230Th/232Th', units: ['ppm', 'atomic ppm', '1e-6'], isNeeded: false },
    correlation: { name: 'correlation of the ratios', units: [''], isNeeded: false },
  },
} as const satisfies Record<MeasuredMethod, Record<string, Property>>;

type Key<Method extends MeasuredMethod> = keyof (typeof PROPERTIES)[Method];
/** The measurement of each; one that is not needed may be missing. */
export type MeasurementsOf<Method extends MeasuredMethod> = Partial<Record<Key<Method>, Measurement>>;

export type DatingMeasurements =
  | { kind: 'luminescence'; rows: MeasurementsOf<'luminescence'> }
  | { kind: 'u_series'; rows: MeasurementsOf<'u_series'> }
  /** No measurement of the sample is one of these. */
  | { kind: 'none' }
  /** Not the measurements that make one age. */
  | { kind: 'unclear'; found: string; expected: string; fix: string };

export const isMeasuredMethod = (method: string): method is MeasuredMethod =>
  Object.hasOwn(PROPERTIES, method);

/** "equivalent dose and dose rate": what an age of the method needs. */
export const neededFor = (method: MeasuredMethod): string =>
  propertiesOf(method)
    .flatMap(([, { name, isNeeded }]) => (isNeeded ? [name] : []))
    .join(' and ');

const propertiesOf = (method: MeasuredMethod): [string, Property][] => Object.entries(PROPERTIES[method]);

/** `measurements` are those of the sample; values that are only limits, and empty ones, are passed over. */
export function datingMeasurements(
  { method, sample }: Determination,
  measurements: readonly Measurement[],
): DatingMeasurements {
  if (!isMeasuredMethod(method)) return { kind: 'none' };
  const rows: Record<string, Measurement> = {};
  const found = propertiesOf(method).map(([key, property]) => ({
    key,
    property,
    of: measurements.filter(
      (row) =>
        row.value !== null && row.qualifier === null && plainWord(row.property) === plainWord(property.name),
    ),
  }));
  if (found.every(({ property, of }) => of.length === 0 || !property.isNeeded)) return { kind: 'none' };
  const counted = found.filter(({ property, of }) => (property.isNeeded ? of.length !== 1 : of.length > 1));
  if (counted.length > 0)
    return {
      kind: 'unclear',
      found: `${counted.map(({ property, of }) => `${of.length} × ${property.name}`).join(', ')} of ${sample}`,
      expected: 'one of each, to compute the age from',
      fix: 'Complete the measurements of the sample, or name each after its own sample.',
    };
  for (const { key, property, of } of found) {
    const [row] = of;
    if (row === undefined) continue;
    const unit = row.unit?.trim() ?? '';
    if (!property.units.includes(unit))
      return {
        kind: 'unclear',
        found: `${property.name} in ${unit === '' ? 'no unit' : unit}`,
        expected: property.units.filter((each) => each !== '').join(' or ') || 'no unit',
        fix: 'Correct the unit of the measurement, or turn its value into that unit.',
      };
    rows[key] = row;
  }
  return { kind: method, rows } as DatingMeasurements;
}
