/** A part of the error that is not there yet. */
import { useId, useState } from 'react';
import { Button, columnHelp, Field } from '../parts/index.ts';

/** Names a part may have; people may write others. */
const USUAL = [
  'compaction',
  'sampling',
  'sample_thickness',
  'levelling',
  'inclination',
  'palaeotide',
  'reworking',
];

export function NewPart({
  taken,
  onAdd,
  onLeave,
}: {
  taken: ReadonlySet<string>;
  onAdd: (component: string) => void;
  onLeave: () => void;
}) {
  const [name, setName] = useState('');
  const list = useId();
  const component = name.trim().toLowerCase().replaceAll(/\s+/g, '_');
  const fault =
    component === ''
      ? null
      : taken.has(component)
        ? 'This part is there already; open it to change it.'
        : null;
  return (
    <form
      className="new-part"
      onSubmit={(event) => {
        event.preventDefault();
        if (component !== '' && fault === null) onAdd(component);
      }}
    >
      <Field name="Name of the part" help={columnHelp('point_errors', 'component')} fault={fault}>
        {(input) => (
          <>
            <input
              {...input}
              // biome-ignore lint/a11y/noAutofocus: it stands where the button just pressed was
              autoFocus
              list={list}
              autoComplete="off"
              value={name}
              onChange={(event) => setName(event.target.value)}
            />
            <datalist id={list}>
              {USUAL.filter((usual) => !taken.has(usual)).map((usual) => (
                <option key={usual} value={usual.replaceAll('_', ' ')} />
              ))}
            </datalist>
          </>
        )}
      </Field>
      <Button type="submit" kind="main" disabled={component === '' || fault !== null}>
        Add the part
      </Button>
      <Button onClick={onLeave}>Cancel</Button>
    </form>
  );
}
