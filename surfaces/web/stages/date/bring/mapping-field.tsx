/** Which of their columns fills one of ours, and a word for rows where none does. */
import { capital, choiceName, columnName } from '@stillstand/campaign/tables';
import { CURVE_NAMES } from '@stillstand/published/curves';
import { columnHelp, Field } from '../../../parts/index.ts';
import type { Filled } from './mapping.ts';

const NAMES: Readonly<Partial<Record<Filled, string>>> = {
  value: 'Conventional age',
  reported_as: 'Age or F14C',
};
export const nameOf = (column: Filled): string =>
  NAMES[column] ?? capital(columnName('determinations', column));

/** Words that can stand for every row, where a column has few. */
const FIXABLE: Readonly<Partial<Record<Filled, readonly string[]>>> = {
  method: ['radiocarbon', 'u_series', 'luminescence', 'lead210', 'caesium137', 'marker', 'historic'],
  calibration_curve: ['', ...CURVE_NAMES],
  reported_as: ['', 'age', 'f14c'],
};

export function MappingField({
  column,
  headings,
  at,
  fixed,
  onMap,
  onFix,
}: {
  column: Filled;
  headings: readonly string[];
  at: number | undefined;
  fixed: string | undefined;
  onMap: (at: number | null) => void;
  onFix: (word: string) => void;
}) {
  const words = FIXABLE[column];
  const isNeeded = column === 'lab_code' || column === 'sample' || column === 'value' || column === 'error';
  return (
    <div className="mapping-field">
      <Field
        name={nameOf(column)}
        help={columnHelp('determinations', column)}
        fault={isNeeded && at === undefined ? 'Choose the column that has it.' : null}
      >
        {(input) => (
          <select
            {...input}
            value={at ?? ''}
            onChange={(event) => onMap(event.target.value === '' ? null : Number(event.target.value))}
          >
            <option value="">not in their table</option>
            {headings.map((heading, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: columns are known by their place
              <option key={i} value={i}>
                {heading.trim() || `column ${i + 1}`}
              </option>
            ))}
          </select>
        )}
      </Field>
      {words === undefined ? null : (
        <Field
          name={at === undefined ? 'for all rows' : 'where it is empty'}
          help={{ about: `${nameOf(column)} of every row that states none` }}
        >
          {(input) => (
            <select {...input} value={fixed ?? ''} onChange={(event) => onFix(event.target.value)}>
              {words.map((word) => (
                <option key={word} value={word}>
                  {word === '' ? 'not stated' : choiceName(word)}
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
    </div>
  );
}
