/** Measurements of a sample that are looked for by name and unit, to be computed with. */
import { plainWord, type Row } from '@stillstand/campaign/tables';

type Measurement = Row<'measurements'>;

export interface Property {
  name: string;
  /** What laboratories call it too. */
  also?: readonly string[];
  units: readonly string[];
  /** Without it there is nothing to compute. */
  isNeeded: boolean;
}

/** Not the measurements that make one answer. */
export interface Unclear {
  kind: 'unclear';
  found: string;
  expected: string;
  fix: string;
}

/** By key of the property: its measurements, which may be none or too many. Limits and empty values are passed over. */
export const foundOf = (
  properties: Readonly<Record<string, Property>>,
  measurements: readonly Measurement[],
): { key: string; property: Property; of: Measurement[] }[] =>
  Object.entries(properties).map(([key, property]) => ({
    key,
    property,
    of: measurements.filter(
      (row) => row.value !== null && row.qualifier === null && isCalled(property, row.property),
    ),
  }));

const isCalled = ({ name, also = [] }: Property, typed: string): boolean =>
  [name, ...also].some((word) => plainWord(word) === plainWord(typed));

/** One measurement for each property found, in its unit; or what is wrong with them. */
export function oneOfEach(
  found: ReturnType<typeof foundOf>,
  sample: string | null,
  what: string,
): { kind: 'matched'; rows: Record<string, Measurement> } | Unclear {
  const counted = found.filter(({ property, of }) => (property.isNeeded ? of.length !== 1 : of.length > 1));
  if (counted.length > 0)
    return {
      kind: 'unclear',
      found: `${counted.map(({ property, of }) => `${of.length} × ${property.name}`).join(', ')} of ${sample}`,
      expected: `one of each, to compute the ${what} from`,
      fix: 'Complete the measurements of the sample, or name each after its own sample.',
    };
  const rows: Record<string, Measurement> = {};
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
  return { kind: 'matched', rows };
}
