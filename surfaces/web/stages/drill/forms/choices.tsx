/** What the hand's leaf offers instead of keys: the choices of a field, or words ready for it. */
import { t } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import type { ChoiceField, TextField } from './field.ts';
import './choices.css';

export function Choices({
  field,
  value,
  onChoose,
}: {
  field: ChoiceField;
  value: string;
  onChoose: (value: string) => void;
}) {
  return (
    <fieldset className="choices">
      <legend>{field.label}</legend>
      {field.options.map((o) => (
        <button
          key={o.value}
          type="button"
          aria-pressed={o.value === value}
          onClick={() => onChoose(o.value)}
        >
          {o.value === value ? <Mark name="tick" size={18} /> : null}
          {o.word}
        </button>
      ))}
    </fieldset>
  );
}

export function ReadyWords({
  field,
  value,
  onChoose,
  onType,
}: {
  field: TextField;
  value: string;
  onChoose: (value: string, also: Readonly<Record<string, string>>) => void;
  /** Opens the keyboard of the device; not given while it is open. */
  onType?: () => void;
}) {
  if (field.ready === undefined || field.ready.length === 0) {
    return <p className="ready-none">{t`Type it with the keyboard of the device.`}</p>;
  }
  return (
    <fieldset className="choices">
      <legend>{field.label}</legend>
      {field.ready.map((r) => (
        <button
          key={r.value}
          type="button"
          aria-pressed={r.value === value}
          onClick={() => onChoose(r.value, r.also ?? {})}
        >
          {r.word}
        </button>
      ))}
      {onType === undefined ? null : <button type="button" onClick={onType}>{t`Type another`}</button>}
    </fieldset>
  );
}
