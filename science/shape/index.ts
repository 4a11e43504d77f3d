/**
 * The vocabulary in which a room describes what it returns. One description is the TypeScript type (`ShapeValue`), the
 * published JSON Schema and its page, the order of the keys on disk, the check when a file is read, and the columns
 * of the tables.
 */

interface Described {
  /** What it is, with its unit; becomes the description in the schema. */
  about: string;
}

export interface TextShape<Choice extends string, Nullable extends boolean> extends Described {
  kind: 'text';
  /** The words allowed; null for any text. */
  choices: readonly Choice[] | null;
  nullable: Nullable;
}
export interface NumberShape<Nullable extends boolean> extends Described {
  kind: 'number';
  unit: string;
  nullable: Nullable;
  /** Whether it is the 1 sigma of something; headings of tables say so. */
  isSigma: boolean;
}
/** A whole number that the file fixes, e.g. its version. */
export interface FixedShape<Value extends number> extends Described {
  kind: 'fixed';
  value: Value;
}
export interface BooleanShape<Nullable extends boolean> extends Described {
  kind: 'boolean';
  nullable: Nullable;
}
/** A run of numbers: an array of its own beside the JSON file. */
export interface NumbersShape extends Described {
  kind: 'numbers';
  unit: string;
  /**
   * Null: one after another. Otherwise rows with one column for each member of the list or run of this name, which
   * stands before it in the same record or in one around it.
   */
  columns: string | null;
}
export interface ListShape<Item extends Shape> extends Described {
  kind: 'list';
  of: Item;
}
export interface RecordShape<Fields extends ShapeFields, Nullable extends boolean> extends Described {
  kind: 'record';
  /** Name of a record that is used in several places, for the schema's `$defs`. */
  name: string | null;
  fields: Fields;
  nullable: Nullable;
}
export type ShapeFields = { readonly [Name in string]: Shape };
export type Shape =
  | TextShape<string, boolean>
  | NumberShape<boolean>
  | FixedShape<number>
  | BooleanShape<boolean>
  | NumbersShape
  | ListShape<Shape>
  | RecordShape<ShapeFields, boolean>;

/** The TypeScript type a shape describes; everything readonly. */
export type ShapeValue<S> =
  S extends TextShape<infer Choice, infer N>
    ? Choice | NullIf<N>
    : S extends NumberShape<infer N>
      ? number | NullIf<N>
      : S extends FixedShape<infer Value>
        ? Value
        : S extends BooleanShape<infer N>
          ? boolean | NullIf<N>
          : S extends NumbersShape
            ? Float64Array
            : S extends ListShape<infer Item>
              ? readonly ShapeValue<Item>[]
              : S extends RecordShape<infer Fields, infer N>
                ? { readonly [Name in keyof Fields]: ShapeValue<Fields[Name]> } | NullIf<N>
                : never;
type NullIf<N> = N extends true ? null : never;

export const text = (about: string): TextShape<string, false> => ({
  kind: 'text',
  about,
  choices: null,
  nullable: false,
});
export const word = <const Choice extends string>(
  about: string,
  choices: readonly Choice[],
): TextShape<Choice, false> => ({ kind: 'text', about, choices, nullable: false });
export const number = (about: string, unit: string): NumberShape<false> => ({
  kind: 'number',
  about,
  unit,
  nullable: false,
  isSigma: false,
});
/** The 1 sigma of something. */
export const sigma = (about: string, unit: string): NumberShape<false> => ({
  ...number(about, unit),
  isSigma: true,
});
export const fixed = <const Value extends number>(about: string, value: Value): FixedShape<Value> => ({
  kind: 'fixed',
  about,
  value,
});
export const yesNo = (about: string): BooleanShape<false> => ({ kind: 'boolean', about, nullable: false });
export const numbers = (about: string, unit: string, columns: string | null = null): NumbersShape => ({
  kind: 'numbers',
  about,
  unit,
  columns,
});
export const list = <Item extends Shape>(about: string, of: Item): ListShape<Item> => ({
  kind: 'list',
  about,
  of,
});
export const record = <const Fields extends ShapeFields>(
  about: string,
  fields: Fields,
  name: string | null = null,
): RecordShape<Fields, false> => ({ kind: 'record', about, name, fields, nullable: false });

type Nullable<S> =
  S extends TextShape<infer Choice, false>
    ? TextShape<Choice, true>
    : S extends NumberShape<false>
      ? NumberShape<true>
      : S extends BooleanShape<false>
        ? BooleanShape<true>
        : S extends RecordShape<infer Fields, false>
          ? RecordShape<Fields, true>
          : never;

/** The same, or null where it is not known, not asked for or does not apply. */
export const orNull = <S extends Shape & { nullable: false }>(shape: S): Nullable<S> =>
  ({ ...shape, nullable: true }) as unknown as Nullable<S>;

/** The same shape in another place, said in that place's words. */
export const as = <S extends Shape>(about: string, shape: S): S => ({ ...shape, about });
