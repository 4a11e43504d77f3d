/** A length to be typed in any unit, kept as typed; the metres stand beside what was not typed in them. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { parseLength } from '@stillstand/campaign/tables';
import { useEffect, useState } from 'react';
import { Field, type Help } from '../../../parts/index.ts';

export function LengthField({
  name,
  value,
  options,
  help,
  disabled = false,
  onCommit,
}: {
  name: string;
  value: string;
  options: LengthOptions;
  help: Help;
  disabled?: boolean;
  /** What was typed, and its metres. Only what can be read is handed on. */
  onCommit: (typed: string, m: number) => void;
}) {
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  const read = typed.trim() === '' ? null : parseLength(typed, options);
  const commit = (): void => {
    if (typed === value) return;
    if (read?.ok) onCommit(typed.trim(), read.metres);
  };
  return (
    <Field
      name={name}
      help={help}
      unit={read?.ok && read.unit !== 'm' ? `${read.metres.toFixed(3)} m` : ''}
      fault={read === null || read.ok ? null : `Expected ${read.expected}. ${read.fix}`}
    >
      {(input) => (
        <input
          {...input}
          value={typed}
          disabled={disabled}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => setTyped(event.target.value)}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') commit();
            if (event.key === 'Escape' && typed !== value) {
              event.stopPropagation();
              setTyped(value);
            }
          }}
        />
      )}
    </Field>
  );
}
