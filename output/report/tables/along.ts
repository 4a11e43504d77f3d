/**
 * Tables along a run of numbers: a row for each place in it, with what the bands beside it say there. What else the
 * result has is the same in every row; other runs have no cell, since nothing says that they have the same places.
 */
import { bandShape } from '@stillstand/science/base';
import {
  type NumberShape,
  number,
  type RecordShape,
  type Shape,
  type ShapeFields,
  type ShapeValue,
} from '@stillstand/science/shape';

type BandAtPlace = RecordShape<
  { readonly [Name in keyof typeof bandShape.fields]: NumberShape<false> },
  false
>;
type FieldsAtPlace<Fields extends ShapeFields, Run extends keyof Fields> = {
  readonly [Name in keyof Fields]: Name extends Run
    ? NumberShape<false>
    : Fields[Name] extends typeof bandShape
      ? BandAtPlace
      : Fields[Name];
};
type Value<Fields extends ShapeFields> = ShapeValue<RecordShape<Fields, false>>;

/** The description of one place of the run, and what a value says there. */
export function along<Fields extends ShapeFields, Run extends keyof Fields & string>(
  shape: RecordShape<Fields, boolean>,
  run: Run,
): {
  shape: RecordShape<FieldsAtPlace<Fields, Run>, false>;
  at: (value: Value<Fields>, place: number) => Value<FieldsAtPlace<Fields, Run>>;
} {
  const fields = Object.entries(shape.fields) as [keyof Fields & string, Shape][];
  const placed = fields.map(([name, field]) => [name, name === run || isBand(field) ? oneOf(field) : field]);
  return {
    shape: { ...shape, nullable: false, fields: Object.fromEntries(placed) },
    at: (value, place) =>
      Object.fromEntries(
        fields.map(([name, field]) => [
          name,
          name === run || isBand(field) ? valueAt(value[name], place) : value[name],
        ]),
      ) as never,
  };
}

const isBand = (shape: Shape): boolean => shape.kind === 'record' && shape.name === bandShape.name;

function oneOf(shape: Shape): Shape {
  if (shape.kind === 'numbers') return number(shape.about, shape.unit);
  if (shape.kind !== 'record') return shape;
  const fields = Object.entries(shape.fields).map(([name, field]) => [name, oneOf(field)]);
  return { ...shape, fields: Object.fromEntries(fields) };
}

function valueAt(value: unknown, place: number): unknown {
  if (value instanceof Float64Array) return value[place] ?? Number.NaN;
  return Object.fromEntries(
    Object.entries(value as Readonly<Record<string, unknown>>).map(([name, each]) => [
      name,
      valueAt(each, place),
    ]),
  );
}
