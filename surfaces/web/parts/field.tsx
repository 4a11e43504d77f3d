import { type ReactNode, useId, useState } from 'react';
import './field.css';
import { Mark } from './mark.tsx';

/** What a field is, in words that help to fill it in. */
export interface Help {
  /** What it is. */
  about: ReactNode;
  unit?: string;
  /** What it usually is, e.g. "1 to 3 m". */
  range?: string;
  /** Where that comes from. */
  source?: string;
}

/**
 * A named entry with its help behind a question mark. `children` gets the id and the description to put on the input:
 * `<Field …>{(input) => <input {...input} …/>}</Field>`.
 */
export function Field({
  name,
  help,
  unit,
  fault,
  children,
}: {
  name: string;
  help?: Help | undefined;
  unit?: string | undefined;
  /** What is wrong with what was typed, and the mend. */
  fault?: string | null | undefined;
  children: (input: { id: string; 'aria-describedby'?: string; 'aria-invalid'?: true }) => ReactNode;
}) {
  const id = useId();
  const [isOpen, setOpen] = useState(false);
  const described = [help === undefined ? '' : `${id}-help`, fault ? `${id}-fault` : '']
    .filter(Boolean)
    .join(' ');
  return (
    <div className="field">
      <div className="name">
        <label htmlFor={id}>{name}</label>
        {help === undefined ? null : (
          <button
            type="button"
            className="ask"
            aria-expanded={isOpen}
            aria-controls={`${id}-help`}
            aria-label={`What is ${name}?`}
            onClick={() => setOpen(!isOpen)}
          >
            <Mark name="help" size={18} />
          </button>
        )}
      </div>
      {help === undefined ? null : (
        <p className="help" id={`${id}-help`} hidden={!isOpen}>
          <HelpText {...help} />
        </p>
      )}
      <div className="entry">
        {children({
          id,
          ...(described === '' ? {} : { 'aria-describedby': described }),
          ...(fault ? { 'aria-invalid': true } : {}),
        })}
        {unit === undefined || unit === '' ? null : (
          <span className="unit" aria-hidden="true">
            {unit}
          </span>
        )}
      </div>
      {fault ? (
        <p className="fault" id={`${id}-fault`} role="status">
          <Mark name="stop" size={15} />
          <span>{fault}</span>
        </p>
      ) : null}
    </div>
  );
}

function HelpText({ about, unit, range, source }: Help) {
  return (
    <>
      {about}
      {unit === undefined || unit === '' ? null : `; in ${unit}`}
      {range === undefined ? null : `; usually ${range}`}
      {source === undefined ? '.' : `. ${source}.`}
    </>
  );
}
