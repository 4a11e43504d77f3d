/** From a filled form to rows of the document: what the press on the main action writes. */
import type { EntryForm } from './forms.ts';
import type { HoleNow } from './hole-now.ts';
import type { DrillStore } from './store-door.ts';

export type Values = Readonly<Record<string, string>>;

/** Cells that say something; a blank cell is left out. */
function said(values: Values): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const [column, value] of Object.entries(values)) if (value.trim() !== '') cells[column] = value.trim();
  return cells;
}

/**
 * Writes what was entered and returns the rows written; `time` is now, ISO 8601 with offset. Readings are appended; a run in hand and a joint's tightness
 * are later rows that complete the first, so that every state it passed through stays in the record.
 */
export function record(
  store: DrillStore,
  now: HoleNow,
  form: EntryForm,
  values: Values,
  time: string,
): string[] {
  const cells = said(values);
  switch (form.name) {
    case 'tighten': {
      const loose = now.string.find((i) => i.row_id === form.fixed['row_id']);
      return loose === undefined ? [] : [store.amend('joints', loose.row_id, { tight: 'true' })];
    }
    case 'loose': {
      const id = cells['row_id'];
      return id === undefined ? [] : [store.amend('joints', id, { tight: 'false' })];
    }
    case 'cable': {
      if (now.run === null) return [];
      return [store.amend('runs', now.run.row_id, { ...cells, time })];
    }
    case 'lay_out': {
      const run = now.readings.findLast((r) => r.kind === 'run');
      return run === undefined ? [] : [store.amend('runs', run.row_id, { ...cells })];
    }
    case 'lost': {
      const at = now.string.findIndex((i) => i.row_id === cells['top_lost']);
      const note = cells['note'] ?? '';
      // from the top down, each by its name: the account is read item by item
      return now.string
        .slice(0, at + 1)
        .reverse()
        .map((item, i) =>
          store.addReading('joints', {
            ...form.fixed,
            item: item.item,
            ...(item.label === null ? {} : { joint: item.label }),
            ...(i === 0 && note !== '' ? { note } : {}),
          }),
        );
    }
    case 'sound': {
      const rows = [store.addReading('soundings', { ...form.fixed, ...cells })];
      if (now.row.state === 'suspended') store.editRow('holes', now.row.row_id, { state: 'open' });
      return rows;
    }
    case 'tide':
      store.editRow('holes', now.row.row_id, {
        state: 'suspended',
        ...(cells['note'] === undefined ? {} : { note: cells['note'] }),
      });
      return [now.row.row_id];
    case 'close':
      store.editRow('holes', now.row.row_id, cells);
      return [now.row.row_id];
    case 'second_hole': {
      const {
        site,
        method,
        pipe,
        reference_point,
        reference_elevation_m,
        reference_sigma_m,
        reference_datum,
        reference_group,
      } = store.rows('holes').find((r) => r.row_id === now.row.row_id)?.cells ?? {};
      const same = said(
        Object.fromEntries(
          Object.entries({
            site,
            method,
            pipe,
            reference_point,
            reference_elevation_m,
            reference_sigma_m,
            reference_datum,
            reference_group,
          }).flatMap(([k, v]) => (v === undefined ? [] : [[k, v]])),
        ),
      );
      return [store.addRow('holes', { ...same, ...cells, replaces: now.row.hole, state: 'open' })];
    }
    default: {
      if (form.table === null) return [];
      const row = store.addReading(form.table, { ...form.fixed, ...cells });
      if (now.row.state === 'planned' || now.row.state === null) {
        store.editRow('holes', now.row.row_id, { state: 'open' });
      }
      return [row];
    }
  }
}

/** The sampler leaves the sediment: the run ends where it is, what came up is not known yet. */
export function lift(store: DrillStore, now: HoleNow): string | null {
  if (now.run === null) return null;
  return store.amend('runs', now.run.row_id, { loss_at: 'unknown' });
}

/** One more stroke of the sampler in hand. */
export function stroke(store: DrillStore, now: HoleNow): string | null {
  if (now.run === null) return null;
  return store.amend('runs', now.run.row_id, { strokes: String((now.run.strokes ?? 0) + 1) });
}
