/** A new section line: its name, and its holes in their order. */
import type { Results } from '@stillstand/campaign/results';
import { useState } from 'react';
import { Field, FormDialog } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { freeLine } from './contact-edits.ts';

export function LineEntry({
  results,
  onDone,
  onClose,
}: {
  results: Results;
  onDone: (line: string) => void;
  onClose: () => void;
}) {
  const store = useStore();
  const lines = store.rows('section_lines');
  const [line, setLine] = useState(freeLine(lines));
  const [holes, setHoles] = useState('');
  const [within, setWithin] = useState('');
  const metres = within.trim().replace(',', '.');
  const isWithin = metres === '' || /^\d+(?:\.\d+)?$/.test(metres);
  const named = holes
    .split(/[;,]/)
    .map((label) => label.trim())
    .filter((label) => label !== '');
  const unknown = named.filter((label) => !results.holes.some(({ hole }) => hole === label));
  const isTaken = lines.some(
    ({ cells }) => cells['line']?.trim().toLowerCase() === line.trim().toLowerCase(),
  );
  const add = (label: string): void => setHoles(named.length === 0 ? label : `${named.join('; ')}; ${label}`);
  return (
    <FormDialog
      title="New section line"
      action="Add section line"
      isReady={line.trim() !== '' && !isTaken && unknown.length === 0 && new Set(named).size > 1 && isWithin}
      onSubmit={() => {
        store.addRow('section_lines', {
          line: line.trim(),
          holes: named.join('; '),
          ...(metres === '' ? {} : { within_m: metres }),
        });
        onDone(line.trim());
      }}
      onClose={onClose}
    >
      <Field
        name="Name"
        help={{ about: 'Label of the line, such as A' }}
        fault={isTaken ? 'A section line has this name. Choose another.' : null}
      >
        {(input) => (
          <input
            {...input}
            autoComplete="off"
            value={line}
            onChange={(event) => setLine(event.target.value)}
          />
        )}
      </Field>
      <Field
        name="Holes in their order"
        help={{ about: 'Labels of at least two holes, separated by ; typed here or added below' }}
        fault={unknown.length === 0 ? null : `No hole is called ${unknown.join(', ')}. Correct the label.`}
      >
        {(input) => (
          <input
            {...input}
            autoComplete="off"
            value={holes}
            onChange={(event) => setHoles(event.target.value)}
          />
        )}
      </Field>
      <Field
        name="Other holes within, m"
        help={{
          about: 'Holes this near the line are set on it too, at their nearest place; empty for none',
          range: '5 to 30 m',
          source: 'Common practice, no source',
        }}
        fault={isWithin ? null : 'Expected a distance in metres, such as 20.'}
      >
        {(input) => (
          <input
            {...input}
            autoComplete="off"
            inputMode="decimal"
            value={within}
            onChange={(event) => setWithin(event.target.value)}
          />
        )}
      </Field>
      <p className="hole-choices">
        {results.holes
          .filter(({ hole, ground_elevation_m }) => ground_elevation_m !== null && !named.includes(hole))
          .map(({ hole }) => (
            <button key={hole} type="button" aria-label={`Add hole ${hole}`} onClick={() => add(hole)}>
              {hole}
            </button>
          ))}
      </p>
    </FormDialog>
  );
}
