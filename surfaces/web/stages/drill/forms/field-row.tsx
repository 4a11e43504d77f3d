/** A field that is no length: words, a number, or a choice shown as the word chosen. */

import { useRef } from 'react';
import { t } from '../../../language/index.ts';
import { useWholeSelected } from '../../../parts/index.ts';
import type { Field } from './field.ts';
import type { Doubt } from './plausible.ts';
import './field-row.css';

export function FieldRow({
  field,
  id,
  value,
  focused,
  was,
  doubt,
  assumed,
  isWhole,
  onFocus,
  onPress,
  onKeyboard,
  onText,
  onEnter,
}: {
  field: Exclude<Field, { kind: 'length' }>;
  id: string;
  value: string;
  focused: boolean;
  was: string | undefined;
  doubt: Doubt | null;
  /** Nothing was typed: it stands there because it is next. */
  assumed: boolean;
  /** Its value is selected whole. */
  isWhole: boolean;
  onFocus: () => void;
  onPress: () => void;
  /** Opens the keyboard of the device, on a press when it is in hand already; not given where that opens by itself. */
  onKeyboard?: () => void;
  onText: (text: string) => void;
  onEnter: () => void;
}) {
  const input = useWholeSelected(focused, isWhole, value);
  const wasInHand = useRef(false);
  if (field.kind === 'choice') {
    const word = field.options.find((o) => o.value === value)?.word ?? '';
    return (
      <button
        type="button"
        className="field-row"
        data-focused={focused}
        onClick={onPress}
        aria-expanded={focused}
      >
        <span>{field.label}</span>
        {was === undefined || was === value ? null : <s>{was}</s>}
        <strong>{word === '' ? <span className="quiet">{t`choose`}</span> : word}</strong>
      </button>
    );
  }
  return (
    <div className="field-row" data-focused={focused}>
      <label htmlFor={id}>
        {field.label}
        {field.needed ? null : <small> {t`if known`}</small>}
      </label>
      {was === undefined || was === '' || was === value ? null : <s>{was}</s>}
      <input
        id={id}
        ref={input}
        inputMode={field.kind === 'number' || onKeyboard !== undefined ? 'none' : 'text'}
        className={assumed ? 'assumed' : undefined}
        autoComplete="off"
        value={value}
        aria-describedby={doubt === null ? undefined : `${id}-says`}
        data-number={field.kind === 'number'}
        data-whole={isWhole && value !== ''}
        onFocus={onFocus}
        // The press that took it in hand sets the caret after the focus; in words it may.
        onPointerDown={() => {
          wasInHand.current = focused;
        }}
        onClick={field.kind === 'number' ? onPress : () => (wasInHand.current ? onKeyboard?.() : undefined)}
        onChange={(event) =>
          onText(field.kind === 'number' ? event.target.value.replace(',', '.') : event.target.value)
        }
        onKeyDown={(event) => {
          if (event.key === 'Enter') {
            event.preventDefault();
            onEnter();
          }
        }}
      />
      {assumed ? <em>{t`assumed`}</em> : null}
      {field.kind === 'number' && field.unit !== '' ? <span className="unit">{field.unit}</span> : null}
      {doubt === null ? null : (
        <p id={`${id}-says`} className="says">
          {doubt.words}
        </p>
      )}
    </div>
  );
}
