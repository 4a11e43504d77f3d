import { type ReactNode, useId, useState } from 'react';
import './field.css';
import { Mark } from '../mark.tsx';

/** What a field is, in words that help to fill it in. */
export interface Help {
  /** What it is. */
  about: ReactNode;
  unit?: string;
  /** What it usually is, e.g. "1 to 3 m". */
  range?: string;
  /** What is taken at all, e.g. "0 to 20 m". */
  taken?: string;
  /** Where that comes from. */
  source?: string;
}

/**
 * A named entry with its help behind a question mark; none is without. `children` gets the id and the description to put on the input:
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
  help: Help;
  unit?: string | undefined;
  /** What is wrong with what was typed, and the mend. */
  fault?: string | null | undefined;
  children: (input: { id: string; 'aria-describedby': string; 'aria-invalid'?: true }) => ReactNode;
}) {
  const id = useId();
  const [isOpen, setOpen] = useState(false);
  const described = fault ? `${id}-help ${id}-fault` : `${id}-help`;
  return (
    <div className="field">
      <div className="name">
        <label htmlFor={id}>{name}</label>
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
      </div>
      <p className="help" id={`${id}-help`} hidden={!isOpen}>
        <HelpText {...help} />
      </p>
      <div className="entry">
        {children({
          id,
          'aria-describedby': described,
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

function HelpText({ about, unit, range, taken, source }: Help) {
  return (
    <>
      {about}
      {unit === undefined || unit === '' ? null : `; in ${unit}`}
      {range === undefined ? null : `; usually ${range}`}
      {taken === undefined ? null : `; taken from ${taken}`}
      {source === undefined ? '.' : `. ${source}.`}
    </>
  );
}
