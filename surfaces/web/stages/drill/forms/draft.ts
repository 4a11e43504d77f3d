/** What is typed in a form before it is recorded, and what it still lacks. */

import { type CrewUnits, readOn } from '@stillstand/campaign/holes';
import { parseLength } from '@stillstand/campaign/tables';
import { midSentence } from '../../../language/index.ts';
import { type PadUnit, readTyping, type Typing } from '../../../parts/index.ts';
import type { EntryForm } from './field.ts';

/** What stands in the fields of a form: as typed, with the unit lit for each length. */
export interface Draft {
  values: Readonly<Record<string, string>>;
  units: Readonly<Record<string, PadUnit>>;
  /** Fields that still hold what was assumed. */
  untouched: ReadonlySet<string>;
  /** The field in hand. */
  at: string | null;
  /** Its value is selected whole: the next digit replaces it, a unit or a delete changes it. */
  isWhole?: boolean;
}

export function draftOf(form: EntryForm, crew: CrewUnits): Draft {
  const values: Record<string, string> = {};
  const units: Record<string, PadUnit> = {};
  const untouched = new Set<string>();
  for (const f of form.fields) {
    values[f.column] = f.initial ?? '';
    if (f.kind === 'length') units[f.column] = crew[readOn(f.column)];
    if (f.assumed) untouched.add(f.column);
  }
  // the first field that still wants something
  const first = form.fields.find((f) => f.needed && (f.initial ?? '') === '') ?? form.fields[0];
  return { values, units, untouched, at: first?.column ?? null };
}

/** The draft of a reading that is amended: its lengths in the units they were read in, whatever the crew reads in now. */
export function draftOfReading(form: EntryForm, crew: CrewUnits): Draft {
  const draft = draftOf(form, crew);
  const units = { ...draft.units };
  for (const f of form.fields) {
    const read = f.kind === 'length' ? parseLength(f.initial ?? '') : null;
    if (read?.ok && read.unit !== 'mm') units[f.column] = read.unit;
  }
  return { ...draft, units };
}

/** The text of a length and its lit unit, as keys change them. */
export const typingOf = (draft: Draft, column: string): Typing => ({
  text: draft.values[column] ?? '',
  unit: draft.units[column] ?? 'm',
});

/** What is still missing before the form says anything, in words; empty when it can be recorded. */
export function missing(form: EntryForm, draft: Draft): string {
  for (const f of form.fields) {
    const value = draft.values[f.column] ?? '';
    if (f.needed && value.trim() === '') return midSentence(f.label);
    if (f.kind === 'length' && value.trim() !== '' && readTyping(typingOf(draft, f.column))?.ok !== true) {
      return midSentence(f.label);
    }
    if (f.kind === 'number' && value.trim() !== '' && !Number.isFinite(Number(value)))
      return midSentence(f.label);
  }
  return '';
}
