/**
 * The field for one column of one table: the right kind of entry, the help its schema gives, and what is wrong with
 * what was typed, in the words of the problems. What was typed is kept as typed.
 */
import {
  bareUnit,
  type Column,
  capital,
  choiceName,
  columnName,
  isTableName,
  labelColumn,
  readCell,
  schemas,
  type TableName,
  TIDE_LEVELS,
  tableWords,
} from '@stillstand/campaign/tables';
import { printed } from '@stillstand/output/words';
import { useEffect, useId, useState } from 'react';
import { choiceWords, hasChoiceWords } from './choice-words.ts';
import { Field, type Help } from './field.tsx';
import { typedKeys } from './typed-keys.ts';
import { useUnsaved } from './unsaved.ts';
import { usualOf } from './usual.ts';

export function columnHelp(table: TableName, column: string): Help & { unit: string } {
  const known = columnOf(table, column);
  if (known === null)
    return { about: 'A heading of your own; it is kept, and nothing is computed from it', unit: '' };
  const about = capital(known.about);
  const usual = usualOf(table, column);
  switch (known.kind) {
    case 'number':
      return { about, unit: known.unit, ...usual, ...takenOf(known.min, known.max, known.unit) };
    case 'length':
      return {
        about: `${about}; as read, with its unit: 3.05 m, 305 cm, 10 ft, 9 ft 11 1/2 in`,
        unit: '',
        ...usual,
        ...takenOf(known.min_m, known.max_m, 'm'),
      };
    case 'choice':
      if (hasChoiceWords(table, column)) return { about, unit: '' };
      return { about: `${about}: ${known.choices.map(choiceName).join(', ')}`, unit: '' };
    case 'time':
      return {
        about: `${about}: date and time with offset, 2024-03-05T14:30+08:00. Times order only readings of one number`,
        unit: '',
      };
    case 'date':
      return { about: `${about}: year first, 2024-03-05`, unit: '' };
    case 'tide':
      return {
        about: `${about}: a tide level with an offset in metres, MHW or MTL-0.25 (${TIDE_LEVELS.join(', ')})`,
        unit: '',
      };
    case 'reference':
      return {
        about: `${about}: a label of one of the ${isTableName(known.to) ? tableWords(known.to) : known.to}`,
        unit: '',
      };
    default:
      return { about, unit: '' };
  }
}

function takenOf(min: number, max: number, unit: string): Pick<Help, 'taken'> {
  if (!Number.isFinite(min) || !Number.isFinite(max)) return {};
  const decimals = (limit: number): number => (Number.isInteger(limit) ? 0 : 1);
  const write = (limit: number): string =>
    /^yr CE/.test(unit) ? String(limit) : printed(limit, decimals(limit));
  return { taken: `${write(min)} to ${write(max)}${unit === '' ? '' : ` ${unit}`}` };
}

/** Texts of more than a line. */
const LONG: ReadonlySet<string> = new Set(['note', 'control', 'conditions']);

export function ColumnField({
  table,
  column,
  value,
  onCommit,
  onType,
  name = capital(columnName(table, column)),
  labels,
  disabled = false,
  lengthUnit = null,
  help: ownHelp,
}: {
  table: TableName;
  column: string;
  value: string;
  /**
   * Called with what was typed when the person leaves the field or presses Enter, if it changed. Where it answers false
   * the change was refused, which has been said, and the field shows what is so.
   */
  onCommit: (typed: string) => unknown;
  /** Called with every change of what is typed, for a drawing that follows it. */
  onType?: (typed: string) => void;
  name?: string;
  /** What may be chosen, for a reference or a text with a vocabulary, where others can still be typed; of a choice, more of them. */
  labels?: readonly string[];
  disabled?: boolean;
  /** Unit of lengths typed without one, as the setting says it; what is none of m, cm and ft is no unit. */
  lengthUnit?: string | null;
  /** Instead of the schema's, where the column means many things. */
  help?: Help;
}) {
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const listId = useId();
  const known = columnOf(table, column);
  const { unit, ...help } = columnHelp(table, column);
  const type = (text: string): void => {
    setTyped(text);
    onType?.(text);
  };
  const commit = (text: string): void => {
    if (text !== value && onCommit(text) === false) setTyped(value);
  };
  useUnsaved(typed !== value && !disabled);
  const fault = faultIn(column, known, typed, lengthUnit);
  const entry = {
    value: typed,
    disabled,
    onBlur: () => commit(typed),
  };
  const choices = choicesOf(known);
  return (
    <Field name={name} help={ownHelp ?? { ...help, unit }} unit={unit} fault={fault}>
      {(input) =>
        choices === null ? (
          LONG.has(column) ? (
            <textarea {...input} {...entry} onChange={(event) => type(event.target.value)} />
          ) : (
            <>
              <input
                {...input}
                {...entry}
                autoComplete="off"
                autoCapitalize="off"
                spellCheck={known?.kind === 'text'}
                inputMode={known?.kind === 'number' ? 'decimal' : 'text'}
                {...(labels === undefined ? {} : { list: listId })}
                onChange={(event) => type(event.target.value)}
                onKeyDown={typedKeys(
                  typed !== value,
                  () => commit(typed),
                  () => type(value),
                )}
              />
              {labels === undefined ? null : (
                <datalist id={listId}>
                  {labels.map((label) => (
                    <option key={label} value={label} />
                  ))}
                </datalist>
              )}
            </>
          )
        ) : (
          <select
            {...input}
            value={typed}
            disabled={disabled}
            onChange={(event) => {
              type(event.target.value);
              commit(event.target.value);
            }}
          >
            <option value="">not stated</option>
            {[...new Set([...choices, ...(labels ?? []), ...(typed === '' ? [] : [typed])])].map((choice) => (
              <option key={choice} value={choice}>
                {choiceWords(table, column, choice)}
              </option>
            ))}
          </select>
        )
      }
    </Field>
  );
}

function faultIn(name: string, column: Column | null, typed: string, setting: string | null): string | null {
  if (column === null || typed.trim() === '') return null;
  const { fault } = readCell(name, column, typed.trim(), { unit: bareUnit(setting) });
  return fault === undefined ? null : `Found “${fault.found}”; expected ${fault.expected}. ${fault.fix}`;
}

function choicesOf(column: Column | null): readonly string[] | null {
  if (column?.kind === 'choice') return column.choices;
  return column?.kind === 'boolean' ? ['yes', 'no'] : null;
}

function columnOf(table: string, column: string): Column | null {
  if (!isTableName(table)) return null;
  const columns: Readonly<Record<string, Column>> = schemas[table].columns;
  return Object.hasOwn(columns, column) ? columns[column]! : null;
}

/** Labels of the rows a reference column may name. */
export function labelsFor(
  table: TableName,
  column: string,
  rows: (table: TableName) => readonly { cells: Readonly<Record<string, string>> }[],
): string[] | undefined {
  const known = columnOf(table, column);
  if (known?.kind !== 'reference' || !isTableName(known.to)) return undefined;
  const label = labelColumn(known.to);
  return label === null
    ? undefined
    : [...new Set(rows(known.to).map((row) => row.cells[label] ?? ''))].filter((text) => text !== '');
}
