/** A half-filled form as it is kept on the device, and filled from there again. */

import { clockOf, dateOf } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import type { KeptDraft } from '../../../store/index.ts';
import type { Draft } from './draft.ts';
import type { EntryForm, Field } from './field.ts';

type Typed = Pick<KeptDraft, 'values' | 'units' | 'at'>;

/** What a hand has typed or chosen; null where that is nothing: what the form itself offers is not kept. */
export function typedIn(form: EntryForm, draft: Draft): Typed | null {
  const touched = form.fields.filter((f) => isTouched(f, draft)).map((f) => f.column);
  if (touched.length === 0) return null;
  const of = <T>(cells: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(touched.flatMap((c) => (cells[c] === undefined ? [] : [[c, cells[c]]])));
  return { values: of(draft.values), units: of(draft.units), at: draft.at };
}

/** What was assumed and is no longer counts as typed, even where it says the same. */
function isTouched({ column, assumed, initial = '' }: Field, draft: Draft): boolean {
  if (assumed === true) return !draft.untouched.has(column);
  return (draft.values[column] ?? '') !== initial;
}

/**
 * The form as it was left: what was typed goes before what the form offers now, and is never assumed. Its field is in
 * hand again with its value selected whole, so that the next digit begins a number and never adds to one.
 */
export function withKept(form: EntryForm, empty: Draft, kept: Typed): Draft {
  const columns = new Set(form.fields.map((f) => f.column));
  const here = <T>(cells: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(Object.entries(cells).filter(([column]) => columns.has(column)));
  const values = here(kept.values);
  return {
    values: { ...empty.values, ...values },
    units: { ...empty.units, ...(here(kept.units) as Draft['units']) },
    untouched: new Set([...empty.untouched].filter((column) => !(column in values))),
    at: kept.at !== null && columns.has(kept.at) ? kept.at : empty.at,
    isWhole: true,
  };
}

/**
 * "Kept from 14:39", with its day where that is another than `day` (2024-06-11); and that readings of its kind, now
 * `count`, came since it was begun.
 */
export function keptWords(
  { time, seen }: Pick<KeptDraft, 'time' | 'seen'>,
  day: string,
  count: number,
): string {
  const date = dateOf(time) ?? '';
  const when = date === day ? clockOf(time) : `${date} ${clockOf(time)}`;
  return t`Kept from ${when}${count > seen ? t`, before the last reading` : ''}`;
}
