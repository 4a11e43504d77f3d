/**
 * Units that laboratories write, by what they measure, so that values of one quantity can be drawn on one scale. What is
 * not known here is kept under its own name and converted to nothing.
 */
/** A unit that is understood. Two of one kind can be converted. */
export interface LaboratoryUnit {
  kind: string;
  /** As it is printed. */
  name: string;
  /** In the unit its kind is counted in: a value in this unit × factor. */
  factor: number;
}

/** By kind: printed name, spellings without blanks in lower case, factor. The first of a kind has factor 1. */
const KINDS: Readonly<Record<string, readonly (readonly [string, readonly string[], number])[]>> = {
  // Of dry mass, where the unit does not say of what.
  'part of mass': [
    ['%', ['%', 'wt%', 'mass%', 'm%', 'percent', 'percentbymass', '%dry', '%dw', '%ofdrymass', '%bymass'], 1],
    ['g/g', ['g/g', 'kg/kg', 'gg-1', 'kgkg-1', 't/t', 'fraction'], 100],
    ['mg/g', ['mg/g', 'mgg-1', 'g/kg', 'gkg-1'], 0.1],
    ['mg/kg', ['mg/kg', 'mgkg-1', 'ppm', 'µg/g', 'µgg-1'], 1e-4],
    ['µg/kg', ['µg/kg', 'µgkg-1', 'ppb', 'ng/g', 'ngg-1'], 1e-7],
  ],
  'part of wet mass': [['% of wet mass', ['%wet', '%ofwetmass', '%ww', '%wetmass'], 1]],
  'part of volume': [
    ['% of volume', ['%vol', 'vol%', '%ofvolume', '%byvolume'], 1],
    ['cm³/cm³', ['cm3/cm3', 'cm3cm-3', 'm3/m3', 'ml/ml'], 100],
  ],
  density: [
    ['g/cm³', ['g/cm3', 'gcm-3', 'g/cc', 'g/ml', 'gml-1', 't/m3', 'tm-3'], 1],
    ['kg/m³', ['kg/m3', 'kgm-3', 'g/l', 'gl-1', 'mg/cm3', 'mgcm-3'], 0.001],
  ],
  length: [
    ['mm', ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'], 1],
    ['µm', ['µm', 'um', 'micron', 'microns', 'micrometre', 'micrometres'], 0.001],
    ['cm', ['cm'], 10],
    ['m', ['m'], 1000],
  ],
  pressure: [
    ['kPa', ['kpa', 'kn/m2', 'knm-2'], 1],
    ['Pa', ['pa', 'n/m2', 'nm-2'], 0.001],
    ['MPa', ['mpa', 'n/mm2'], 1000],
    // Standard gravity 9.80665 m/s², exact by definition (CGPM 1901).
    ['kgf/cm²', ['kgf/cm2', 'kg/cm2'], 98.0665],
  ],
  // Dimensionless in SI; the older cgs unit of volume susceptibility is 4π of it.
  'volume susceptibility': [
    ['10⁻⁵ SI', ['10-5si', '1e-5si', 'e-5si'], 1],
    ['10⁻⁶ SI', ['10-6si', '1e-6si', 'e-6si', 'µsi'], 0.1],
    ['SI', ['si', 'siunits'], 1e5],
    ['10⁻⁶ cgs', ['10-6cgs', '1e-6cgs', 'µcgs', '10-6emu/cm3'], 0.4 * Math.PI],
  ],
  'mass susceptibility': [
    ['10⁻⁸ m³/kg', ['10-8m3/kg', '1e-8m3/kg', '10-8m3kg-1'], 1],
    ['10⁻⁶ m³/kg', ['10-6m3/kg', '1e-6m3/kg', '10-6m3kg-1', 'µm3/kg'], 100],
    ['m³/kg', ['m3/kg', 'm3kg-1'], 1e8],
  ],
  activity: [
    ['Bq/kg', ['bq/kg', 'bqkg-1', 'mbq/g', 'mbqg-1'], 1],
    ['Bq/g', ['bq/g', 'bqg-1'], 1000],
    // A disintegration a minute in a gram; a curie is 3.7 × 10¹⁰ Bq by definition.
    ['dpm/g', ['dpm/g', 'dpmg-1'], 1000 / 60],
    ['pCi/g', ['pci/g', 'pcig-1'], 37],
  ],
  mass: [
    ['g', ['g', 'gram', 'grams', 'gm'], 1],
    ['mg', ['mg'], 0.001],
    ['kg', ['kg'], 1000],
  ],
  volume: [
    ['cm³', ['cm3', 'cc', 'ml'], 1],
    ['mm³', ['mm3', 'µl'], 0.001],
    ['l', ['l', 'dm3', 'litre', 'liter'], 1000],
  ],
};

const BY_SPELLING: ReadonlyMap<string, LaboratoryUnit> = new Map(
  Object.entries(KINDS).flatMap(([kind, units]) =>
    units.flatMap(([name, spellings, factor]) =>
      spellings.map((spelling): [string, LaboratoryUnit] => [spelling, { kind, name, factor }]),
    ),
  ),
);

/** Lower case, without blanks, brackets, carets and multiplication signs; raised digits as digits. */
function squashed(unit: string): string {
  const raised = '⁰¹²³⁴⁵⁶⁷⁸⁹';
  return (
    unit
      .toLowerCase()
      .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (digit) => String(raised.indexOf(digit)))
      .replace(/[⁻−–]/g, '-')
      .replace(/[\s·.()[\]^×*]/g, '')
      .replaceAll('μ', 'µ')
      // "x 10-5 SI": a sign of multiplication that is a letter.
      .replace(/^x(?=10-)/, '')
      // Micrograms where no µ is on the keyboard.
      .replace(/^ug(?=\/|g-|kg-)/, 'µg')
  );
}

/** Null for a unit that is not known here: it can still be drawn, and converted to nothing. */
export const laboratoryUnit = (unit: string): LaboratoryUnit | null =>
  BY_SPELLING.get(squashed(unit)) ?? null;

/** A value, or its sigma, in another unit of its kind. Throws RangeError for another kind. */
export function convertedUnit(value: number, from: LaboratoryUnit, to: LaboratoryUnit): number {
  if (from.kind !== to.kind)
    throw new RangeError(`${from.name} is a ${from.kind}: expected the same of ${to.name}`);
  if (from.factor === to.factor) return value;
  // 12 digits: so that 0.3 g/g is 30 %, without the last digits of the division.
  const exact = value * (from.factor / to.factor);
  return Number(exact.toPrecision(12));
}
