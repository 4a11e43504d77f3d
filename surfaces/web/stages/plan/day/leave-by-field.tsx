/** The hour to leave by, typed as it is said; what cannot be read leaves the last hour standing. */
import { useEffect, useState } from 'react';
import { columnHelp, Field } from '../../../parts/index.ts';
import { leaveByTime, leaveByWords } from './leave-by.ts';

export function LeaveByField({
  leaveBy,
  date,
  offset_min,
  readOnly,
  onChange,
}: {
  leaveBy: string;
  date: string;
  offset_min: number;
  readOnly: boolean;
  /** A full time with its offset, or nothing. */
  onChange: (leave_by: string) => void;
}) {
  const shown = leaveByWords(leaveBy, date);
  const [typed, setTyped] = useState(shown);
  const [isLeft, setLeft] = useState(true);
  useEffect(() => setTyped(shown), [shown]);
  const isRead = typed.trim() === '' || leaveByTime(typed, date, offset_min) !== null;
  const commit = (): void => {
    setLeft(true);
    const next = typed.trim() === '' ? '' : leaveByTime(typed, date, offset_min);
    if (next === null || typed.trim() === shown) return;
    if (next === leaveBy) setTyped(shown);
    else onChange(next);
  };
  const stands = leaveBy === '' || leaveBy === typed ? '' : ` ${shown} stands.`;
  return (
    <Field
      name="Leave by"
      help={{
        ...columnHelp('field_days', 'leave_by'),
        about: 'When the place must be left: a time of day, 18:30, by the campaign’s clock',
      }}
      fault={
        isRead || !isLeft
          ? null
          : date === ''
            ? 'Give the day its date first: the hour is written with it.'
            : `Found “${typed.trim()}”; expected a time of day, such as 18:30.${stands}`
      }
    >
      {(input) => (
        <input
          {...input}
          value={typed}
          disabled={readOnly}
          autoComplete="off"
          inputMode="text"
          onChange={(event) => {
            setTyped(event.target.value);
            setLeft(false);
          }}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') commit();
            if (event.key === 'Escape') setTyped(shown);
          }}
        />
      )}
    </Field>
  );
}
