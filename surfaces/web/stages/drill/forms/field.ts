/** What a form is made of: its fields, what stands in them before a hand does, and the cells they become. */

import { choiceName, type TableName } from '@stillstand/campaign/tables';
import { translated } from '../../../language/index.ts';

interface FieldBase {
  column: string;
  label: string;
  /** What it is, its unit, a typical range and where that comes from. */
  help: string;
  /** Without it the reading says nothing. */
  needed?: boolean;
  /** Stands there until something else is typed. */
  initial?: string;
  /** The initial is what the string should be, not what was read: marked as assumed. */
  assumed?: boolean;
}

/** What is doubtful about what was typed, with the other fields as they are; null where nothing is. */
type FieldDoubt = (typed: string, values: Readonly<Record<string, string>>) => string | null;

interface LengthField extends FieldBase {
  kind: 'length';
  /** May be below zero: the keypad shows its sign. */
  signed?: boolean;
}
interface NumberField extends FieldBase {
  kind: 'number';
  unit: string;
  whole?: boolean;
  doubt?: FieldDoubt;
}
export interface ChoiceField extends FieldBase {
  kind: 'choice';
  options: readonly { value: string; word: string }[];
}
export interface TextField extends FieldBase {
  kind: 'text';
  /** Ready words to press instead of typing; `also` fills other fields with them. */
  ready?: readonly { value: string; word: string; also?: Readonly<Record<string, string>> }[];
  doubt?: FieldDoubt;
}
export type Field = LengthField | NumberField | ChoiceField | TextField;

export const FORM_NAMES = [
  'add',
  'tighten',
  'loose',
  'drive',
  'fill',
  'sound',
  'water',
  'mark',
  'marks',
  'zero',
  'run',
  'cable',
  'lay_out',
  'pieces',
  'push',
  'answer',
  'waters',
  'gear',
  'rating',
  'pull',
  'lost',
  'ground',
  'note',
  'breakdown',
  'weather',
  'injury',
  'hand_over',
  'call_in',
  'instrument',
  'crew',
  'tide',
  'stuck',
  'respond',
  'close',
  'second_hole',
] as const;
export type FormName = (typeof FORM_NAMES)[number];

export interface EntryForm {
  name: FormName;
  title: string;
  /** On the main action: "Record the sounding". */
  verb: string;
  caution: string | null;
  table: TableName | null;
  /** Cells that go with it, unseen. */
  fixed: Readonly<Record<string, string>>;
  fields: readonly Field[];
}

export const words = (values: readonly string[]): { value: string; word: string }[] =>
  values.map((value) => ({ value, word: plainWord(value) }));

/** A cell's word as the crew says it: "lost_lifting" to "lost lifting". */
export const plainWord = (value: string): string => translated(choiceName(value));

/** Words ready for a note: they are the crew's own, and go into the record in its language. */
export const ready = (values: readonly string[]): { value: string; word: string }[] =>
  values.map((value) => ({ value, word: value }));

/** What every form of a hole has in common. */
export type Base = Pick<EntryForm, 'name' | 'fixed' | 'caution'>;

export const length = (
  column: string,
  label: string,
  help: string,
  more: Partial<Omit<LengthField, 'kind' | 'column' | 'label' | 'help'>> = {},
): LengthField => ({ kind: 'length', column, label, help, ...more });

export const number = (
  column: string,
  label: string,
  unit: string,
  help: string,
  more: Partial<Pick<NumberField, 'whole' | 'initial' | 'needed' | 'doubt'>> = {},
): NumberField => ({ kind: 'number', column, label, unit, help, ...more });

export const text = (column: string, label: string, help: string): TextField => ({
  kind: 'text',
  column,
  label,
  help,
});

export const choice = (
  column: string,
  label: string,
  values: readonly string[],
  help: string,
  initial: string,
): ChoiceField => ({
  kind: 'choice',
  column,
  label,
  help,
  options: words(values),
  ...(initial === '' ? {} : { initial }),
});
