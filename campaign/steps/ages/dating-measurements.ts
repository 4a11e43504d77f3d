/** Which measurements of a sample make a luminescence or uranium-series age, by their names and units. */
import type { Row } from '@stillstand/campaign/tables';
import { foundOf, oneOfEach, type Property, type Unclear } from './matched-measurements.ts';
import { type Contents, contentsIn } from './sediment-measurements.ts';

type Determination = Row<'determinations'>;
type Measurement = Row<'measurements'>;

/** Methods whose age follows from measurements of the sample. */
export type MeasuredMethod = 'luminescence' | 'u_series';

const RATIO_UNITS = ['', 'activity ratio'];

const PROPERTIES = {
  luminescence: {
    dose: {
      name: 'equivalent dose',
      also: ['De', 'palaeodose', 'paleodose'],
      units: ['Gy'],
      isNeeded: true,
    },
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
  /** `contents`: what a dose rate is computed from where none was measured; null: it was. */
  | { kind: 'luminescence'; rows: MeasurementsOf<'luminescence'>; contents: Contents | null }
  | { kind: 'u_series'; rows: MeasurementsOf<'u_series'> }
  /** No measurement of the sample is one of these. */
  | { kind: 'none' }
  | Unclear;

export const isMeasuredMethod = (method: string): method is MeasuredMethod =>
  Object.hasOwn(PROPERTIES, method);

/** "equivalent dose and dose rate, or contents to compute it from": what an age of the method needs. */
export const neededFor = (method: MeasuredMethod): string =>
  `${Object.values<Property>(PROPERTIES[method])
    .flatMap(({ name, isNeeded }) => (isNeeded ? [name] : []))
    .join(' and ')}${method === 'luminescence' ? ', or contents to compute it from' : ''}`;

/** `measurements` are those of the sample; values that are only limits, and empty ones, are passed over. */
export function datingMeasurements(
  { method, sample }: Determination,
  measurements: readonly Measurement[],
): DatingMeasurements {
  if (!isMeasuredMethod(method)) return { kind: 'none' };
  const found = foundOf(PROPERTIES[method], measurements);
  if (found.every(({ property, of }) => of.length === 0 || !property.isNeeded)) return { kind: 'none' };
  const isOf = (key: string): boolean => found.some((each) => each.key === key && each.of.length > 0);
  // A dose rate that was measured comes in place of one from contents.
  const contents =
    method === 'luminescence' && isOf('dose') && !isOf('rate') ? contentsIn(sample, measurements) : null;
  if (contents?.kind === 'unclear') return contents;
  const wanted = contents === null ? found : found.filter(({ key }) => key !== 'rate');
  const matched = oneOfEach(wanted, sample, 'age');
  if (matched.kind === 'unclear') return matched;
  return method === 'luminescence'
    ? { kind: method, rows: matched.rows, contents: contents?.rows ?? null }
    : { kind: method, rows: matched.rows };
}
