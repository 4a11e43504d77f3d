/** What comes along with a word that is ready for a field: the length of the pipe whose label it is. */
import { sameLabel } from '@stillstand/science/rig';
import type { Draft } from './draft.ts';
import type { EntryForm, Field } from './field.ts';

/**
 * The values of a draft once `typed` stands in `field`: what comes along with it, only where nobody typed anything else;
 * a word that brings nothing takes away what came along with the last one.
 */
export function alongWith(field: Field, typed: string, draft: Draft): Draft['values'] {
  if (field.kind !== 'text' || field.ready === undefined) return draft.values;
  const chosen = field.ready.find((r) => sameLabel(r.value) === sameLabel(typed));
  const columns = field.ready.flatMap((r) => Object.keys(r.also ?? {}));
  const along = columns
    .filter((column) => draft.untouched.has(column))
    .map((column) => [column, chosen?.also?.[column] ?? '']);
  return { ...draft.values, ...Object.fromEntries(along) };
}

/** Fields that are assumed once a ready word brought `also` along: its lengths, until somebody types another. */
export function assumedWith(
  form: EntryForm,
  draft: Draft,
  also: Readonly<Record<string, string>>,
): ReadonlySet<string> {
  const lengths = form.fields.filter((f) => f.kind === 'length' && Object.hasOwn(also, f.column));
  return new Set([...draft.untouched, ...lengths.map((f) => f.column)]);
}

/** Another kind of item: a label that was only offered, and what came along with it, are of the item offered before. */
export function afterChoice(
  form: EntryForm,
  draft: Draft,
  column: string,
  value: string,
): Pick<Draft, 'values' | 'untouched'> {
  const offered = form.fields.filter((f) => f.kind === 'text' && draft.untouched.has(f.column));
  if (draft.values[column] === value || offered.length === 0) return draft;
  const gone = form.fields.filter(
    (f) => offered.includes(f) || (f.kind === 'length' && draft.untouched.has(f.column)),
  );
  const untouched = new Set(draft.untouched);
  for (const f of gone) untouched.delete(f.column);
  return { values: { ...draft.values, ...Object.fromEntries(gone.map((f) => [f.column, ''])) }, untouched };
}
