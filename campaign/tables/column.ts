/**
 * The kinds of column a table may have. One description gives the TypeScript type of a parsed row, the Frictionless
 * Table Schema written beside the CSV, and the validation.
 */

interface ColumnBase<Kind extends string, Required extends boolean> {
  kind: Kind;
  required: Required;
  /** What it is, for schema files, help and problems. */
  about: string;
  /**
   * Nothing is computed from it that a blank would change: a cell that cannot be read becomes blank and the row is
   * still used. Elsewhere such a row is set aside, because the default of a blank would change numbers unseen.
   */
  detail?: boolean;
  /** Names it had in earlier versions of the document, read for ever. */
  was?: readonly string[];
  /** What its words were called then, old word to new. */
  oldWords?: Readonly<Record<string, string>>;
  /**
   * A row without it cannot be used, unless another of its columns is filled: with one of these words, or with anything
   * where none is listed.
   */
  unless?: Readonly<Record<string, readonly string[]>>;
}

export interface TextColumn<R extends boolean> extends ColumnBase<'text', R> {
  names?: Named;
}
/**
 * What a text, or a word that is none of the choices, may name: nothing is set aside where it names no row, but a row that is named is depended on. The row is
 * found by `column`, where that is not the label of the table; `scope` says under which columns here the columns there
 * that it must agree in are written.
 */
export interface Named {
  table: string;
  column?: string;
  scope?: Readonly<Record<string, string>>;
  /** Its row_id names the row, too. */
  byRow?: boolean;
  /** Only where this column of the row says this. */
  where?: readonly [column: string, word: string];
}

/** A person's name for the row, unique among the rows that share the table's `scope` columns. */
export interface LabelColumn<R extends boolean> extends ColumnBase<'label', R> {}
/** Names a row of another table by its label, e.g. `holes`. */
export interface ReferenceColumn<R extends boolean> extends ColumnBase<'reference', R> {
  to: string;
}
export interface NumberColumn<R extends boolean> extends ColumnBase<'number', R> {
  unit: string;
  min: number;
  max: number;
  integer: boolean;
}
/** A length as typed ("10 ft", "9 ft 11 1/2 in", "3.05 m", "305 cm"); parsed to metres as `NAME_m`. */
export interface LengthColumn<R extends boolean> extends ColumnBase<'length', R> {
  /** Metres. */
  min_m: number;
  max_m: number;
}
export interface ChoiceColumn<Choice extends string, R extends boolean> extends ColumnBase<'choice', R> {
  choices: readonly Choice[];
  /** Another word is kept as typed: it may name a row. */
  names?: Named;
}
/** ISO 8601 date and time with offset, kept as text; information only, never an order. */
export interface TimeColumn<R extends boolean> extends ColumnBase<'time', R> {}
/** ISO 8601 date. */
export interface DateColumn<R extends boolean> extends ColumnBase<'date', R> {
  names?: Named;
}
export interface BooleanColumn<R extends boolean> extends ColumnBase<'boolean', R> {}
/** A tide level with an offset in metres: "MHW", "MHW+0.1", "MTL-0.25". */
export interface TideWordColumn<R extends boolean> extends ColumnBase<'tide', R> {}

export type Column =
  | TextColumn<boolean>
  | LabelColumn<boolean>
  | ReferenceColumn<boolean>
  | NumberColumn<boolean>
  | LengthColumn<boolean>
  | ChoiceColumn<string, boolean>
  | TimeColumn<boolean>
  | DateColumn<boolean>
  | BooleanColumn<boolean>
  | TideWordColumn<boolean>;

export type Columns = Readonly<Record<string, Column>>;

export const TIDE_LEVELS = [
  'HAT',
  'MHHW',
  'MHWS',
  'MHW',
  'MHWN',
  'MTL',
  'DTL',
  'MSL',
  'MLWN',
  'MLW',
  'MLWS',
  'MLLW',
  'LAT',
] as const;
export type TideLevelName = (typeof TIDE_LEVELS)[number];

/** A tide word: the level plus an offset, metres, up positive. */
export interface TideWord {
  level: TideLevelName;
  offset_m: number;
}

type Value<C extends Column> = C extends { kind: 'number' | 'length' }
  ? number
  : C extends { kind: 'boolean' }
    ? boolean
    : C extends { kind: 'tide' }
      ? TideWord
      : C extends ChoiceColumn<infer Choice, boolean>
        ? C extends { names: Named }
          ? string
          : Choice
        : string;

type FieldName<Name, C extends Column> = Name extends string
  ? C extends { kind: 'length' }
    ? `${Name}_m`
    : Name
  : never;

/** A parsed row: a missing optional cell is null; a length is in metres under `NAME_m`. */
export type RowOf<C extends Columns> = {
  readonly [Name in keyof C as FieldName<Name, C[Name]>]: C[Name] extends { required: true }
    ? Value<C[Name]>
    : Value<C[Name]> | null;
};

export const text = (about: string): TextColumn<false> => ({ kind: 'text', required: false, about });
export const label = (about: string): LabelColumn<true> => ({ kind: 'label', required: true, about });
export const reference = (to: string, about: string): ReferenceColumn<false> => ({
  kind: 'reference',
  required: false,
  to,
  about,
});
export const number = (
  about: string,
  unit: string,
  range: { min?: number; max?: number; integer?: boolean } = {},
): NumberColumn<false> => ({
  kind: 'number',
  required: false,
  about,
  unit,
  min: range.min ?? Number.NEGATIVE_INFINITY,
  max: range.max ?? Number.POSITIVE_INFINITY,
  integer: range.integer ?? false,
});
export const length = (
  about: string,
  range: { min_m?: number; max_m?: number } = {},
): LengthColumn<false> => ({
  kind: 'length',
  required: false,
  about,
  min_m: range.min_m ?? Number.NEGATIVE_INFINITY,
  max_m: range.max_m ?? Number.POSITIVE_INFINITY,
});
export const choice = <const Choice extends string>(
  about: string,
  choices: readonly Choice[],
): ChoiceColumn<Choice, false> => ({ kind: 'choice', required: false, about, choices });
/** A word of the list, or the name of a row. */
export const choiceOrName = <const Choice extends string>(
  about: string,
  choices: readonly Choice[],
  names: Named,
): ChoiceColumn<Choice, false> & { names: Named } => ({ ...choice(about, choices), names });
export const time = (about: string): TimeColumn<false> => ({ kind: 'time', required: false, about });
export const date = (about: string): DateColumn<false> => ({ kind: 'date', required: false, about });

/** The same column, which may name a row of another table. */
export const naming = <C extends TextColumn<boolean> | DateColumn<boolean>>(column: C, names: Named): C => ({
  ...column,
  names,
});

export const boolean = (about: string): BooleanColumn<false> => ({ kind: 'boolean', required: false, about });
export const tide = (about: string): TideWordColumn<false> => ({ kind: 'tide', required: false, about });

/** The same column, but a cell of it that cannot be read does not set its row aside. */
export const detail = <C extends Column>(column: C): C => ({ ...column, detail: true });

/** The same column, which had another name in an earlier version. */
export const renamed = <C extends Column>(was: string, column: C): C => ({ ...column, was: [was] });

/** The same column, some of whose words were others in an earlier version. */
export const reworded = <C extends Column>(oldWords: Readonly<Record<string, string>>, column: C): C => ({
  ...column,
  oldWords,
});

/** The same column, needed in a row unless others of its columns say so. */
export const requiredUnless = <C extends Column>(unless: NonNullable<Column['unless']>, column: C): C => ({
  ...column,
  unless,
});

type Required<C> = C extends { required: boolean } ? Omit<C, 'required'> & { required: true } : never;

/** The same column, but a row without it cannot be used. */
export const required = <C extends Column>(column: C): Required<C> =>
  ({ ...column, required: true }) as unknown as Required<C>;
