/** What a column of theirs can fill: columns of ours, and ways of saying where something lies. */
import { type Column, schemas, type TableName } from '@stillstand/campaign/tables';
import type { Kind } from './mapping.ts';

/** The table that a kind of row goes into. */
export const TABLE_OF: Readonly<Record<Kind, TableName>> = {
  cores: 'holes',
  'tide-levels': 'tide_levels',
  levelling: 'levelling',
  pushes: 'pushes',
  layers: 'units',
  samples: 'samples',
  'calibration-curves': 'calibration_curves',
  'age-densities': 'age_densities',
  dates: 'determinations',
  measurements: 'measurements',
  'lead-profiles': 'measurements',
  points: 'points',
  'published-points': 'compiled_points',
};

/**
 * - `own`: a column of the table
 * - `place`: where it lies, from which the columns of the table or a sample follow
 * - `many`: each such column is a row of its own
 */
export interface Target {
  to: string;
  way: 'own' | 'place' | 'many';
  /** How a cell of it is read, and its unit. */
  column: Column;
  about: string;
}

const length = (about: string): Column => ({
  kind: 'length',
  required: false,
  about,
  min_m: -50,
  max_m: 12_000,
});
const text = (about: string): Column => ({ kind: 'text', required: false, about });
const choice = (about: string, choices: readonly string[]): Column => ({
  kind: 'choice',
  required: false,
  about,
  choices,
});
const number = (about: string, unit: string): Column => ({
  kind: 'number',
  required: false,
  about,
  unit,
  min: Number.NEGATIVE_INFINITY,
  max: Number.POSITIVE_INFINITY,
  integer: false,
});

const place = (to: string, column: Column): Target => ({ to, way: 'place', column, about: column.about });
const many = (to: string, column: Column): Target => ({ to, way: 'many', column, about: column.about });

/** Where in a core. */
const IN_CORE: readonly Target[] = [
  place('hole', text('the core')),
  place('top', length('top of it, below the ground or along the core')),
  place('bottom', length('bottom of it')),
  place('depth', length('one depth, or a range such as 12–14 cm, which becomes top and bottom')),
  place('thickness', length('thickness around the depth')),
  place('depth_basis', schemas.samples.columns.depth_basis),
  place('run', schemas.samples.columns.run),
];
const MATERIAL = place('material', text('what the sample is made of, where one is made'));

const WAYS: Readonly<Record<Kind, readonly Target[]>> = {
  cores: [
    place('easting', number('UTM easting, where no latitude is stated', 'm')),
    place('northing', number('UTM northing', 'm')),
    place('utm_zone', text('UTM zone and hemisphere, such as 17N')),
  ],
  'tide-levels': [
    many('tide level', number('elevation of the level named in `property`', 'm')),
    place('uncertainty', number('2 or 1 sigma of all of them', 'm')),
  ],
  levelling: [],
  pushes: [
    place('length', length('length pushed, where its bottom is not stated')),
    place(
      'shortening',
      length('length pushed less length recovered, where neither length pushed nor bottom is stated'),
    ),
  ],
  layers: [
    place('depth', length('top and bottom in one cell')),
    place('thickness', length('thickness, counted from the top down')),
    many('layer', length('thickness of the layer named in `property`; layers from the left down')),
  ],
  samples: [place('depth', IN_CORE[3]!.column), place('thickness', IN_CORE[4]!.column)],
  'calibration-curves': [],
  'age-densities': [
    place('age_ce', number('calendar year CE; below 0 before the era', 'yr')),
    place('age_bce', number('calendar year BCE, without a sign', 'yr')),
    place('age_b2k', number('years before 2000', 'yr')),
    place('year_zero', choice('whether years CE below 0 are counted with a year 0', ['no', 'yes'])),
    place('gaps', choice('what years without a row mean', ['straight', 'zero'])),
    many('weight of', number('how probable a year there is, of the curve named in `property`', 'as stated')),
  ],
  dates: [...IN_CORE, MATERIAL],
  measurements: [
    ...IN_CORE.filter(({ to }) => to === 'depth' || to === 'thickness'),
    MATERIAL,
    many('measurement', number('value of the property named in `property`', 'as stated')),
    many('measurement error', number('error of the property named in `property`', 'as stated')),
  ],
  'lead-profiles': [
    ...IN_CORE,
    place('collected', schemas.lead_profiles.columns.collected),
    place('supported_bq_kg', schemas.lead_profiles.columns.supported_bq_kg),
    place('supported_sigma_bq_kg', schemas.lead_profiles.columns.supported_sigma_bq_kg),
    many('measurement', number('activity or dry density named in `property`', 'as stated')),
    many('measurement error', number('its error', 'as stated')),
    many('measurement limit', number('below this it is not detected', 'as stated')),
  ],
  points: [...IN_CORE],
  'published-points': [
    place('rsl error up', number('error upwards; the larger of the two is taken', 'm')),
    place('rsl error down', number('error downwards', 'm')),
    place('age error older', number('error to the older side; the larger of the two is taken', 'yr')),
    place('age error younger', number('error to the younger side', 'yr')),
    place('age_ce', number('calendar age in years CE', 'yr')),
  ],
};

/** Columns that the import fills itself, or that are no business of a table of somebody else. */
const NOT_THEIRS = new Set([
  'row_id',
  'by',
  'device',
  'amends',
  'amend_kind',
  'amend_reason',
  'qualifier',
  'replaces',
]);

/** Of one kind that are said in another way. */
const OTHERWISE: Readonly<Partial<Record<Kind, readonly string[]>>> = {
  'lead-profiles': ['property', 'value', 'sigma', 'unit', 'top', 'bottom'],
};

const TARGETS = new Map<Kind, ReadonlyMap<string, Target>>(
  (Object.keys(TABLE_OF) as Kind[]).map((kind) => {
    const own = Object.entries<Column>(schemas[TABLE_OF[kind]].columns)
      .filter(([name]) => !NOT_THEIRS.has(name) && OTHERWISE[kind]?.includes(name) !== true)
      .map(([to, column]): Target => ({ to, way: 'own', column, about: column.about }));
    const ways = WAYS[kind].filter(({ to }) => !own.some((target) => target.to === to));
    return [kind, new Map([...own, ...ways].map((target) => [target.to, target]))];
  }),
);

/** Everything that a column of a table of this kind can fill, by name. */
export const targetsOf = (kind: Kind): ReadonlyMap<string, Target> => TARGETS.get(kind)!;

/** Whether it is a length as typed, or a number in metres: without a unit it cannot be read. */
export const needsUnit = ({ column }: Target): boolean =>
  column.kind === 'length' || (column.kind === 'number' && (column.unit === 'm' || column.unit === 'mm'));
