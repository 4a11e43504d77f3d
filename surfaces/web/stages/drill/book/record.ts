/** From a filled form to rows of the document: what the press on the main action writes. */

import type { HoleState } from '@stillstand/campaign/holes';
import type { SettingName } from '@stillstand/campaign/settings';
import { t } from '../../../language/index.ts';
import type { EntryForm } from '../forms/field.ts';
import type { DrillStore } from '../tape/decimal-points.ts';

export type Values = Readonly<Record<string, string>>;

/** Cells that say something; a blank cell is left out. */
function said(values: Values): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const [column, value] of Object.entries(values)) if (value.trim() !== '') cells[column] = value.trim();
  return cells;
}

/** What a replacement hole has of the hole that was lost; its position is its own. */
const SAME_AS_LOST = [
  'site',
  'method',
  'pipe',
  'reference_point',
  'reference_elevation_m',
  'reference_sigma_m',
  'reference_datum',
  'reference_shared_group',
] as const;

/** Not of one whose reference was levelled again: its own elevation is entered when it is known. */
const LEVELLED_AGAIN: readonly string[] = ['reference_elevation_m', 'reference_sigma_m'];

/** Row_ids as a list; null where the row was refused. */
const one = (id: string | null): string[] | null => (id === null ? null : [id]);

/**
 * Writes what was entered and returns the rows written, null where that was refused; `time` is now, ISO 8601 with offset. Readings are appended; a run in hand and a joint's tightness
 * are later rows that complete the first, so that every state it passed through stays in the record.
 */
export function record(
  store: DrillStore,
  now: HoleState,
  form: EntryForm,
  values: Values,
  time: string,
): string[] | null {
  const cells = said(values);
  switch (form.name) {
    case 'mark': {
      const { confirmed, cable_at_collar = '' } = cells;
      const { hole = '' } = form.fixed;
      return [
        ...(confirmed !== 'zero' ? [store.addReading('cable_marks', form.fixed)] : []),
        ...(confirmed === 'marks'
          ? []
          : [store.addReading('soundings', { hole, purpose: 'zero_check', cable_at_collar })]),
      ];
    }
    case 'tighten': {
      const loose = now.string.find((i) => i.row_id === form.fixed['row_id']);
      return loose === undefined ? [] : one(store.amend('string_items', loose.row_id, { tight: 'true' }));
    }
    case 'loose': {
      const id = cells['row_id'];
      return id === undefined ? [] : one(store.amend('string_items', id, { tight: 'false' }));
    }
    case 'respond': {
      const id = form.fixed['row_id'];
      const response = cells['obstruction_response'];
      return id === undefined || response === undefined
        ? []
        : one(store.amend('drives', id, { obstruction_response: response }));
    }
    case 'cable': {
      if (now.run === null) return [];
      return one(store.amend('runs', now.run.row_id, { ...cells, time }));
    }
    case 'lay_out': {
      const run = now.readings.findLast((r) => r.kind === 'run');
      if (run?.kind !== 'run') return [];
      const { laid_out, ...of } = cells;
      const rows = one(store.amend('runs', run.row_id, of));
      if (rows === null) return null;
      if (laid_out === 'in one piece' && of['recovered'] !== undefined)
        rows.push(
          store.addReading('pieces', {
            ...form.fixed,
            run: run.run,
            top: of['fall_in'] ?? '0 m',
            bottom: of['recovered'],
            condition: 'intact',
          }),
        );
      return rows;
    }
    case 'waters': {
      for (const name of ['water_outside', 'plug_kind'] as const) choose(store, name, cells[name] ?? '');
      const inside = cells['water_inside'];
      if (inside === undefined || inside === now.water.kind) return [];
      // the last filling says of what, where it does not yet
      const filled = now.readings.findLast((r) => r.kind === 'water');
      return filled?.kind === 'water' && filled.water === null
        ? one(store.amend('water_added', filled.row_id, { kind: inside }))
        : [store.addReading('water_added', { ...form.fixed, kind: inside })];
    }
    case 'gear':
      for (const f of form.fields) choose(store, f.column as SettingName, cells[f.column] ?? '');
      return [];
    case 'call_in': {
      const { due, ...of } = cells;
      return [
        store.addReading('events', {
          ...form.fixed,
          ...of,
          ...(due === undefined || due === 'none' ? { text: 'last call' } : { due }),
        }),
      ];
    }
    case 'instrument':
      return [store.addReading('instrument_checks', { ...form.fixed, ...cells })];
    case 'hand_over': {
      const { confirmed, ...of } = cells;
      return [
        store.addReading('events', { ...form.fixed, ...of, ...(confirmed === 'yes' ? { confirmed } : {}) }),
      ];
    }
    case 'rating': {
      const { part = '', load = '', unit = '', note = '' } = cells;
      const rated = { part, marking: `${load} ${unit}`, rated_load_kn: '', note };
      const known = store.rows('rated_gear').find((r) => r.cells['part']?.trim() === part);
      if (known === undefined) return [store.addRow('rated_gear', said(rated))];
      return store.editRow('rated_gear', known.row_id, rated) ? [known.row_id] : null;
    }
    case 'lost': {
      const at = now.string.findIndex((i) => i.row_id === cells['top_lost']);
      const note = cells['note'] ?? '';
      // from the top down, each by its name: the account is read item by item
      return now.string
        .slice(0, at + 1)
        .reverse()
        .map((item, i) =>
          store.addReading('string_items', {
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
    case 'tide': {
      const { note } = cells;
      store.editRow('holes', now.row.row_id, { state: 'suspended', ...(note === undefined ? {} : { note }) });
      const text = note === undefined ? t`Stopped for the tide` : t`Stopped for the tide: ${note}`;
      return [store.addReading('events', { ...form.fixed, kind: 'note', text })];
    }
    case 'close':
      store.editRow('holes', now.row.row_id, { ...cells, ended_at: time });
      return [now.row.row_id];
    case 'second_hole': {
      const lost = store.rows('holes').find((r) => r.row_id === now.row.row_id)?.cells ?? {};
      const isLevelled = cells['reference_basis'] === 'levelled';
      const kept = SAME_AS_LOST.filter((column) => !isLevelled || !LEVELLED_AGAIN.includes(column));
      const same = said(Object.fromEntries(kept.map((column) => [column, lost[column] ?? ''])));
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
export function lift(store: DrillStore, now: HoleState): string | null {
  if (now.run === null) return null;
  return store.amend('runs', now.run.row_id, { loss_position: 'unknown' });
}

/** One more stroke of the sampler in hand. */
export function stroke(store: DrillStore, now: HoleState): string | null {
  if (now.run === null) return null;
  return store.amend('runs', now.run.row_id, { strokes: String((now.run.strokes ?? 0) + 1) });
}

/** A choice of the crew, written where it is another than stands there. */
function choose(store: DrillStore, name: SettingName, value: string): void {
  const was = store.rows('settings').find((r) => r.cells['name'] === name)?.cells['value'] ?? '';
  if (was !== value) store.setSetting(name, value);
}
