/** The ground along a section line, pasted: it replaces the profile that the line had. */
import type { SectionResult } from '@stillstand/campaign/results';
import { useState } from 'react';
import { counted, Field, FormDialog } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { carryOut } from '../edits.ts';
import { lineOf } from './contact-edits.ts';
import { profileOf } from './profile.ts';

export function ProfileEntry({
  section,
  onDone,
  onClose,
}: {
  section: SectionResult;
  onDone: (said: string) => void;
  onClose: () => void;
}) {
  const store = useStore();
  const [pasted, setPasted] = useState('');
  const { places, fault } = profileOf(pasted);
  const before = store.rows('section_profile').filter(({ cells }) => cells['line']?.trim() === section.line);
  const save = (): void => {
    const { label, edits } = lineOf(section, store.rows('section_lines'));
    carryOut(store, [
      ...edits,
      ...before.map(({ row_id }) => ({ change: 'remove', table: 'section_profile', row_id }) as const),
      ...places.map(
        (place) => ({ change: 'add', table: 'section_profile', cells: { line: label, ...place } }) as const,
      ),
    ]);
    onDone(`Ground profile of ${label} saved: ${counted(places.length, 'place')}.`);
  };
  return (
    <FormDialog
      title="Ground profile"
      action={`Save ${counted(places.length, 'place')}`}
      isReady={places.length > 1 && fault === null}
      says={
        before.length === 0 ? null : (
          <p className="says-why">Replaces the {counted(before.length, 'place')} of this line.</p>
        )
      }
      onSubmit={save}
      onClose={onClose}
    >
      <Field
        name="Distance and elevation, m"
        help={{
          about:
            'One place on each line: distance from the first hole of the line and elevation of the ground, both in metres, as copied from a table',
        }}
        fault={fault}
      >
        {(input) => (
          <textarea {...input} rows={8} value={pasted} onChange={(event) => setPasted(event.target.value)} />
        )}
      </Field>
    </FormDialog>
  );
}
