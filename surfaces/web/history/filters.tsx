/** Which changes are listed: by person, device, hole or table, and those of others; all on one line. */
import { capital, tableWords } from '@stillstand/campaign/tables';
import type { ReactNode } from 'react';
import type { Choices, Wanted } from './lines.ts';
import './filters.css';

export function Filters({
  choices,
  wanted,
  onWant,
}: {
  choices: Choices;
  wanted: Wanted;
  onWant: (wanted: Wanted) => void;
}) {
  const options = (words: readonly string[]): ReactNode =>
    words.map((word) => <option key={word}>{word}</option>);
  return (
    <div className="filters">
      <Choice
        name="Person"
        help="Lists only changes made by this person."
        value={wanted.by}
        onChoose={(by) => onWant({ ...wanted, by })}
      >
        {options(choices.by)}
      </Choice>
      <Choice
        name="Device"
        help="Lists only changes made on this device, by its name under Crew."
        value={wanted.device}
        onChoose={(device) => onWant({ ...wanted, device })}
      >
        {options(choices.device)}
      </Choice>
      <Choice
        name="Where"
        help="Lists only changes of this hole, or of this table."
        value={wanted.where}
        onChoose={(where) => onWant({ ...wanted, where })}
      >
        <optgroup label="Holes">
          {choices.holes.map((hole) => (
            <option key={hole} value={`hole ${hole}`}>
              {hole}
            </option>
          ))}
        </optgroup>
        <optgroup label="Tables">
          {choices.tables.map((table) => (
            <option key={table} value={`table ${table}`}>
              {capital(tableWords(table))}
            </option>
          ))}
        </optgroup>
      </Choice>
      <label title="Lists only changes made by other people, on other devices or in other windows.">
        <input
          type="checkbox"
          checked={wanted.others}
          title="Lists only changes made by other people, on other devices or in other windows."
          onChange={({ target }) => onWant({ ...wanted, others: target.checked })}
        />
        <span>
          <span className="longer">Changed by </span>others
        </span>
      </label>
    </div>
  );
}

function Choice({
  name,
  help,
  value,
  onChoose,
  children,
}: {
  name: string;
  help: string;
  value: string;
  onChoose: (value: string) => void;
  children: ReactNode;
}) {
  return (
    <select
      aria-label={name}
      title={help}
      value={value}
      data-chosen={value !== ''}
      onChange={({ target }) => onChoose(target.value)}
    >
      <option value="">{name}</option>
      {children}
    </select>
  );
}
