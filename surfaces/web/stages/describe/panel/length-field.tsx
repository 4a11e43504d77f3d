/** A length to be typed in any unit, kept as typed; the metres stand beside what was not typed in them. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { parseLength } from '@stillstand/campaign/tables';
import { useEffect, useState } from 'react';
import { Field, type Help, typedKeys } from '../../../parts/index.ts';

interface LengthFieldProps {
  name: string;
  options: LengthOptions;
  help: Help;
  disabled?: boolean;
}

export function LengthField({
  value,
  onCommit,
  ...rest
}: LengthFieldProps & {
  value: string;
  /** What was typed, and its metres. Only what can be read is handed on. */
  onCommit: (typed: string, m: number) => void;
}) {
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const read = typed.trim() === '' ? null : parseLength(typed, rest.options);
  const commit = (): void => {
    if (typed === value) return;
    if (read?.ok) onCommit(typed.trim(), read.metres);
  };
  return (
    <TypedLength
      {...rest}
      typed={typed}
      fault={read === null || read.ok ? null : `Expected ${read.expected}. ${read.fix}`}
      onType={setTyped}
      onBlur={commit}
      onKeyDown={typedKeys(typed !== value, commit, () => setTyped(value))}
    />
  );
}

/** The entry alone: what is typed is kept, and judged, elsewhere. */
export function TypedLength({
  name,
  typed,
  options,
  help,
  fault,
  disabled = false,
  onType,
  ...hand
}: LengthFieldProps & {
  typed: string;
  fault: string | null;
  onType: (typed: string) => void;
  onBlur?: () => void;
  onFocus?: () => void;
  onKeyDown?: (event: React.KeyboardEvent) => void;
}) {
  const read = typed.trim() === '' ? null : parseLength(typed, options);
  return (
    <Field
      name={name}
      help={help}
      unit={read?.ok && read.unit !== 'm' ? `${read.metres.toFixed(3)} m` : ''}
      fault={fault}
    >
      {(input) => (
        <input
          {...input}
          {...hand}
          value={typed}
          disabled={disabled}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => onType(event.target.value)}
        />
      )}
    </Field>
  );
}
