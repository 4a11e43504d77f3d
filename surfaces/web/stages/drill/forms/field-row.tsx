/** A field that is no length: words, a number, or a choice shown as the word chosen. */
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
  isWhole,
  onFocus,
  onPress,
  onText,
  onEnter,
}: {
  field: Exclude<Field, { kind: 'length' }>;
  id: string;
  value: string;
  focused: boolean;
  was: string | undefined;
  doubt: Doubt | null;
  /** Its value is selected whole. */
  isWhole: boolean;
  onFocus: () => void;
  onPress: () => void;
  onText: (text: string) => void;
  onEnter: () => void;
}) {
  const input = useWholeSelected(focused, isWhole, value);
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
        <strong>{word === '' ? <span className="quiet">choose</span> : word}</strong>
      </button>
    );
  }
  return (
    <div className="field-row" data-focused={focused}>
      <label htmlFor={id}>
        {field.label}
        {field.needed ? null : <small> if known</small>}
      </label>
      {was === undefined || was === '' || was === value ? null : <s>{was}</s>}
      <input
        id={id}
        ref={input}
        inputMode={field.kind === 'number' ? 'none' : 'text'}
        autoComplete="off"
        value={value}
        aria-describedby={doubt === null ? undefined : `${id}-says`}
        data-number={field.kind === 'number'}
        data-whole={isWhole && value !== ''}
        onFocus={onFocus}
        // The press that took it in hand sets the caret after the focus; in words it may.
        onClick={field.kind === 'number' ? onPress : undefined}
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
      {field.kind === 'number' && field.unit !== '' ? <span className="unit">{field.unit}</span> : null}
      {doubt === null ? null : (
        <p id={`${id}-says`} className="says">
          {doubt.words}
        </p>
      )}
    </div>
  );
}
