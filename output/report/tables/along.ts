/** Tables along a run of numbers: a row for each place in it, with what the result says there. */
import {
  type NumberShape,
  type NumbersShape,
  number,
  type RecordShape,
  type Shape,
  type ShapeFields,
  type ShapeValue,
} from '@stillstand/science/shape';

/** A run is a number at a place, a record of runs a record of numbers. */
type AtPlace<S> = S extends NumbersShape
  ? NumberShape<false>
  : S extends RecordShape<infer Fields, infer Nullable>
    ? RecordShape<FieldsAtPlace<Fields>, Nullable>
    : S;
type FieldsAtPlace<Fields extends ShapeFields> = {
  readonly [Name in keyof Fields]: Extract<AtPlace<Fields[Name]>, Shape>;
};
type Value<Fields extends ShapeFields> = ShapeValue<RecordShape<Fields, false>>;

/** The description of one place, and what a value says there. */
export function along<Fields extends ShapeFields>(
  shape: RecordShape<Fields, boolean>,
): {
  shape: RecordShape<FieldsAtPlace<Fields>, false>;
  at: (value: Value<Fields>, place: number) => Value<FieldsAtPlace<Fields>>;
} {
  return { shape: shapeAt(shape) as never, at: (value, place) => valueAt(value, place) as never };
}

function shapeAt(shape: Shape): Shape {
  if (shape.kind === 'numbers') return number(shape.about, shape.unit);
  if (shape.kind !== 'record') return shape;
  const fields = Object.entries(shape.fields).map(([name, field]) => [name, shapeAt(field)]);
  return { ...shape, fields: Object.fromEntries(fields) };
}

function valueAt(value: unknown, place: number): unknown {
  if (value instanceof Float64Array) return value[place] ?? Number.NaN;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, valueAt(each, place)]));
}
