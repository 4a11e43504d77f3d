/**
 * A table's columns from the description of what it lists. Every field of the entry is a column, in the description's
 * order, under its own name: a table says only what it shows otherwise, in another place, or not at all, and why. So a
 * number that a room adds to what it returns is in the tables without a word here.
 *
 * Headings: the name with its unit; `_1sigma` where the description says that it is the 1 sigma of something; members of
 * a record after its name. `row_id` comes last. Text lists are joined by semicolons; lists of records and runs of numbers
 * have no cell: they are a table of their own, or left out by name (`tables.test.ts` finds those that are neither).
 */
import type { RecordShape, Shape, ShapeFields, ShapeValue } from '@stillstand/science/shape';
import { type Column, type Decimals, numberColumn, textColumn, yesNoColumn } from './column.ts';
import { aboutWithUnit, decimalsOf, decimalsWith, unitInName, withUnit } from './units.ts';

/** A field on its way to columns. */
export interface Field<Value, Row> {
  heading: string;
  about: string;
  shape: Shape;
  /** The field of the entry it is, or is in. */
  field: string;
  /** Null where it is, or where what it is in is. */
  value: (row: Row) => Value | null;
  decimals?: Decimals<Row>;
}
export type Show<Value, Row> = (field: Field<Value, Row>) => Column<Row>[];

export interface Plan<Fields extends ShapeFields, Row> {
  /** Fields that are shown otherwise than their description alone would have it. */
  shown?: { readonly [Name in keyof Fields]?: Show<NonNullable<ShapeValue<Fields[Name]>>, Row> };
  /** A field, and the one it follows in the table. */
  after?: { readonly [Name in keyof Fields]?: keyof Fields };
  /** Columns that follow those of a field. */
  followedBy?: { readonly [Name in keyof Fields]?: readonly Column<Row>[] };
  /** Fields without a column, and why. */
  leftOut?: { readonly [Name in keyof Fields]?: string };
  /** Of numbers that are not shown with decimals of their own. */
  decimals?: Decimals<Row>;
}

type Value<Fields extends ShapeFields> = ShapeValue<RecordShape<Fields, false>>;

interface Within {
  /** Begins the headings. */
  heading: string;
  about: string;
  field: string;
}

/** The columns of a record that `read` finds in a row; null where the row has none. */
export function columnsOf<Fields extends ShapeFields, Row>(
  shape: RecordShape<Fields, boolean>,
  read: (row: Row) => Value<Fields> | null,
  plan: Plan<Fields, Row> = {},
  within: Within | null = null,
): Column<Row>[] {
  return inOrder(shape, plan).flatMap((name) => {
    const own = shape.fields[name]!;
    const field: Field<never, Row> = {
      heading: headingOf(name, own, within?.heading ?? null),
      about: within === null ? own.about : `${within.about}: ${own.about}`,
      shape: own,
      field: within?.field ?? name,
      value: (row) => (read(row)?.[name] ?? null) as never,
      ...(plan.decimals === undefined ? {} : { decimals: plan.decimals }),
    };
    const show: Show<never, Row> = plan.shown?.[name] ?? asDescribed;
    return [...show(field), ...(plan.followedBy?.[name] ?? [])];
  });
}

/** Only these fields of a record, e.g. of another entry that the row names. */
export const someOf = <Fields extends ShapeFields, Name extends keyof Fields & string>(
  shape: RecordShape<Fields, boolean>,
  names: readonly Name[],
): RecordShape<Pick<Fields, Name>, false> => ({
  ...shape,
  nullable: false,
  fields: Object.fromEntries(names.map((name) => [name, shape.fields[name]!])) as unknown as Pick<
    Fields,
    Name
  >,
});

function inOrder<Fields extends ShapeFields, Row>(
  { fields }: RecordShape<Fields, boolean>,
  { after = {}, leftOut = {} }: Plan<Fields, Row>,
): (keyof Fields & string)[] {
  const moved = Object.entries(after) as [string, string][];
  const last = (name: string): boolean => name === 'row_id';
  const names = Object.keys(fields).filter((name) => !(name in after) && !(name in leftOut));
  for (const [name, before] of moved) names.splice(names.indexOf(before) + 1, 0, name);
  return [...names.filter((name) => !last(name)), ...names.filter(last)];
}

/** "lower95" within "depth_m" is `depth_m_lower_95`. */
function headingOf(name: string, shape: Shape, before: string | null): string {
  const spelled = name.replace(/([a-z])(\d\d)$/, '$1_$2');
  const whole = before === null ? spelled : `${before}_${spelled}`;
  if (shape.kind !== 'number') return whole;
  const named = withUnit(shape.isSigma ? whole.replace(/_?sigma/, '') : whole, shape.unit);
  return shape.isSigma ? `${named}_1sigma` : named;
}

/** As the description has it. */
const asDescribed = <Value, Row>(field: Field<Value, Row>): Column<Row>[] => {
  const { shape } = field;
  switch (shape.kind) {
    case 'text':
      return [textColumn(field, valueIn<string, Row>(field))];
    case 'boolean':
      return [yesNoColumn(field, valueIn<boolean, Row>(field))];
    case 'fixed':
      return [numberColumn(field, 0, valueIn<number, Row>(field))];
    case 'number': {
      const value = valueIn<number, Row>(field);
      const about = aboutWithUnit(field.about, shape.unit);
      return [
        numberColumn(
          { ...field, about },
          field.decimals ?? ((row) => decimalsOf(value(row), shape.unit)),
          value,
        ),
      ];
    }
    case 'list': {
      if (shape.of.kind !== 'text') return [];
      const value = valueIn<readonly string[], Row>(field);
      return [textColumn(field, (row) => value(row)?.join('; ') ?? null)];
    }
    case 'record': {
      const record = field as Field<unknown, Row> as Field<never, Row>;
      return shape.name === 'estimate' ? spread(record) : members<ShapeFields, Row>(shape, {})(record);
    }
    case 'numbers':
      return [];
  }
};

const valueIn = <Value, Row>(field: Field<unknown, Row>) => field.value as (row: Row) => Value | null;

/** Under another heading; with other decimals; with another value, null where there is none. */
export const shownAs =
  <Value, Row>(
    heading: string,
    other: { decimals?: Decimals<Row>; value?: (value: Value, row: Row) => Value | null } = {},
  ): Show<Value, Row> =>
  (field) => {
    const { value: change, decimals } = other;
    const value = (row: Row): Value | null => {
      const own = field.value(row);
      return own === null || change === undefined ? own : change(own, row);
    };
    return asDescribed({ ...field, heading, value, ...(decimals === undefined ? {} : { decimals }) });
  };

/** A 1 sigma as the 2 sigma of what is named, which its description then says; under another heading where one is given. */
export const atTwoSigma =
  <Row>(named: string | null = null, decimals?: Decimals<Row>): Show<number, Row> =>
  (field) =>
    shownAs<number, Row>(named ?? field.heading.replace(/1sigma$/, '2sigma'), {
      value: (sigma) => 2 * sigma,
      ...(decimals === undefined ? {} : { decimals }),
    })({ ...field, about: field.about.replace(/\b1 (sigma|sd)\b(?!.*\b1 (?:sigma|sd)\b)/, '2 $1') });

/** As text of its own. */
export const inWords =
  <Value, Row>(heading: string, write: (value: Value, row: Row) => string): Show<Value, Row> =>
  (field) => [
    textColumn({ ...field, heading }, (row) => {
      const value = field.value(row);
      return value === null ? null : write(value, row);
    }),
  ];

/** All of these, one after another. */
export const several =
  <Value, Row>(...shows: readonly Show<Value, Row>[]): Show<Value, Row> =>
  (field) =>
    shows.flatMap((show) => show(field));

/** The members of a record, by a plan of their own; under another heading where one is given. */
export const members =
  <Fields extends ShapeFields, Row>(
    shape: RecordShape<Fields, boolean>,
    plan: Plan<Fields, Row>,
    heading: string | null = null,
  ): Show<Value<Fields>, Row> =>
  (field) =>
    columnsOf(
      shape,
      field.value,
      field.decimals === undefined ? plan : { decimals: field.decimals, ...plan },
      {
        heading: heading ?? field.heading,
        about: field.about,
        field: field.field,
      },
    );

type EstimateFields = Record<'value' | 'sigma' | 'lower95' | 'upper95', Extract<Shape, { kind: 'number' }>>;
type Estimated = { readonly sigma: number | null };

/** Decimals that follow the uncertainty, so that value and uncertainty share them. */
const ofSigma = <Row>(field: Field<unknown, Row>): Decimals<Row> => {
  const unit = unitInName(field.field);
  const estimate = valueIn<Estimated, Row>(field);
  return (row) => decimalsWith(2 * (estimate(row)?.sigma ?? Number.NaN), unit);
};

const bare = <Value, Row>(field: Field<unknown, Row>): Show<Value, Row> => shownAs<Value, Row>(field.heading);

/** An estimate as its best value and 2 sigma. */
export const plusMinus =
  <Row>(heading: string | null = null): Show<ShapeValue<RecordShape<EstimateFields, false>>, Row> =>
  (given) => {
    const field = { ...given, heading: heading ?? given.heading };
    return members<EstimateFields, Row>(field.shape as RecordShape<EstimateFields, boolean>, {
      shown: { value: bare(field), sigma: atTwoSigma(`${field.heading}_2sigma`) },
      leftOut: { lower95: 'the 2 sigma is shown', upper95: 'the 2 sigma is shown' },
      decimals: ofSigma(field),
    })(field);
  };

/** An estimate as its best value and central 95 %, which need not lie evenly about it. */
const spread = <Row>(field: Field<ShapeValue<RecordShape<EstimateFields, false>>, Row>): Column<Row>[] =>
  members<EstimateFields, Row>(field.shape as RecordShape<EstimateFields, boolean>, {
    shown: { value: bare(field) },
    leftOut: { sigma: 'the bounds are shown' },
    decimals: ofSigma(field),
  })(field);
