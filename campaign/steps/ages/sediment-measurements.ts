/** Which measurements of a sample make a dose rate where none was measured: contents, water, cosmic dose, grains. */
import type { Row } from '@stillstand/campaign/tables';
import type { Finding } from '@stillstand/science/dating';
import {
  contentOf,
  type DoseFactors,
  type Element,
  isFinding,
  type Measured,
  measured,
  type Sediment,
} from '@stillstand/science/luminescence';
import { foundOf, oneOfEach, type Property, type Unclear } from './matched-measurements.ts';

type Measurement = Row<'measurements'>;

const ACTIVITY = 'Bq/kg';
const RATES = ['Gy/ka', 'mGy/yr', 'mGy/a'];
const SIZES = ['µm', 'μm', 'um'];
const ELEMENTS = ['uranium', 'thorium', 'potassium'] as const satisfies readonly Element[];

const PROPERTIES = {
  uranium: { name: 'uranium', also: ['U'], units: ['ppm', 'mg/kg', 'µg/g', ACTIVITY], isNeeded: true },
  thorium: { name: 'thorium', also: ['Th'], units: ['ppm', 'mg/kg', 'µg/g', ACTIVITY], isNeeded: true },
  potassium: { name: 'potassium', also: ['K'], units: ['%', ACTIVITY], isNeeded: true },
  // Of dry mass, as it was since burial: what was found in the field may be far from it.
  water: { name: 'water since burial', units: ['%', '% of dry mass'], isNeeded: true },
  cosmic: { name: 'cosmic dose rate', units: RATES, isNeeded: true },
  grain_from: { name: 'grain size from', units: SIZES, isNeeded: true },
  grain_to: { name: 'grain size to', units: SIZES, isNeeded: true },
  // How much was etched off: 0 is none. Whether any was decides the alpha dose, so that none is assumed.
  etched: { name: 'etched layer', units: SIZES, isNeeded: true },
  internal: { name: 'internal dose rate', units: RATES, isNeeded: false },
  alpha: { name: 'alpha efficiency', units: [''], isNeeded: false },
  beta: { name: 'beta attenuation', units: [''], isNeeded: false },
} as const satisfies Record<string, Property>;

type Key = keyof typeof PROPERTIES;
/** The measurement of each; one that is not needed may be missing. */
export type Contents = Partial<Record<Key, Measurement>>;

/** Null where no uranium, thorium or potassium of the sample was measured. */
export function contentsIn(
  sample: string | null,
  measurements: readonly Measurement[],
): { kind: 'contents'; rows: Contents } | Unclear | null {
  const found = foundOf(PROPERTIES, measurements);
  const isElement = (key: string): boolean => ELEMENTS.some((element) => element === key);
  if (!found.some(({ key, of }) => isElement(key) && of.length > 0)) return null;
  const matched = oneOfEach(found, sample, 'dose rate');
  return matched.kind === 'unclear' ? matched : { kind: 'contents', rows: matched.rows };
}

/** Whether an activity is turned into a content with the specific activities of the factors. */
export const hasActivities = (contents: Contents): boolean =>
  ELEMENTS.some((element) => contents[element]?.unit?.trim() === ACTIVITY);

/**
 * The sediment of a sample, or what is wrong with its numbers. Water, the cosmic and the internal dose, alpha efficiency and
 * beta attenuation are off alike for samples of one place (common practice, no source): their errors are shared unless a part
 * is stated. Contents err each by itself.
 * @param depth_m below the ground; only for what is said of shallow samples
 */
export function sedimentOf(
  contents: Contents,
  factors: DoseFactors,
  depth_m: number | null,
): Sediment | { findings: Finding[] } {
  const findings: Finding[] = [];
  const read = (key: Key, isShared: boolean): Measured | null => {
    const row = contents[key];
    if (row === undefined) return null;
    const { name } = PROPERTIES[key];
    const { value, sigma, systematic_sigma } = row;
    if (sigma === null) {
      findings.push({
        of: key,
        found: `${name} ${value} ${row.unit ?? ''}, no error`.replace(' ,', ','),
        expected: 'its 1 sigma',
        fix: 'Enter it; 0 only where the number is exact.',
      });
      return null;
    }
    const made = measured(name, value!, sigma, systematic_sigma ?? (isShared ? sigma : 0));
    if (!isFinding(made)) return made;
    findings.push({ ...made, found: `${name} ${made.found}` });
    return null;
  };
  const content = (element: Element): Measured | null => {
    const made = read(element, false);
    return made === null || contents[element]!.unit?.trim() !== ACTIVITY
      ? made
      : contentOf(element, made, factors);
  };
  const [uranium, thorium, potassium] = ELEMENTS.map(content);
  const percent = read('water', true);
  const cosmic = read('cosmic', true);
  const internal = read('internal', true);
  const alpha_efficiency = read('alpha', true);
  const beta_attenuation = read('beta', true);
  if (findings.length > 0 || !uranium || !thorium || !potassium || !percent || !cosmic) return { findings };
  return {
    uranium,
    thorium,
    potassium,
    water: {
      value: 0.01 * percent.value,
      random: 0.01 * percent.random,
      systematic: 0.01 * percent.systematic,
    },
    cosmic,
    grains: {
      from_um: contents.grain_from!.value!,
      to_um: contents.grain_to!.value!,
      etched: contents.etched!.value! > 0,
    },
    ...(internal === null ? {} : { internal }),
    alpha_efficiency,
    beta_attenuation,
    depth_m,
  };
}

/** By what of the sediment a finding is of, as its measurement is called. */
const CALLED: Readonly<Record<string, string>> = {
  water: PROPERTIES.water.name,
  cosmic: PROPERTIES.cosmic.name,
  internal: PROPERTIES.internal.name,
  alpha_efficiency: PROPERTIES.alpha.name,
  beta_attenuation: PROPERTIES.beta.name,
  depth: 'depth',
  grains: 'grains',
};

/** A finding about the sediment, which names the measurement. */
export const namedFinding = (finding: Finding): Finding => ({
  ...finding,
  found: `${CALLED[finding.of] ?? finding.of}: ${finding.found}`,
});
