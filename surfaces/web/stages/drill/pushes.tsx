/**
 * A hole cored without a string: a one-piece tube, a chamber, a gouge or a hand corer. Each push is a reading: where
 * it began and ended, what came up, and for a tube how far it was shortened, read inside against outside.
 */
import { useState } from 'react';
import { ActionBar, Mark } from '../../parts/index.ts';
import { completeLength } from '../../parts/keypad-typing.ts';
import { type Draft, draftOf, Entry, missing } from './entry.tsx';
import type { EntryForm, LengthField } from './forms.ts';
import { type HoleNow, rowsOf } from './hole-now.ts';
import type { DrillStore, TypedRow } from './store-door.ts';
import './drill.css';

const length = (column: string, label: string, help: string, needed = false): LengthField => ({
  kind: 'length',
  column,
  label,
  help,
  needed,
});

function pushForm(hole: string, rows: readonly TypedRow[]): EntryForm {
  const last = rows.at(-1)?.cells ?? {};
  return {
    name: 'note',
    title: 'A push',
    verb: 'Record the push',
    caution: null,
    table: 'pushes',
    fixed: { hole, push: `P${rows.length + 1}` },
    fields: [
      {
        ...length('from', 'From', 'Top of the push below the ground.', true),
        ...(last['to'] ? { initial: last['to'], assumed: true } : {}),
      },
      length('to', 'To', 'Bottom of the push below the ground.', true),
      length('recovered', 'Came up', 'Length recovered; blank where the chamber is read in place.'),
      length('inside_top', 'Sediment inside', 'Below the top of the tube, before it is pulled.'),
      length(
        'outside_top',
        'Ground outside',
        'Below the top of the tube, before it is pulled: inside minus outside is the shortening.',
      ),
    ],
  };
}

export function Pushes({ store, now }: { store: DrillStore; now: HoleNow }) {
  const hole = now.row.hole;
  const all = rowsOf(store, 'pushes', hole);
  const amended = new Set(all.flatMap((r) => (r.cells['amends'] ? [r.cells['amends']] : [])));
  const standing = all.filter((r) => !amended.has(r.row_id) && r.cells['amend_kind'] !== 'withdraw');
  const form = pushForm(hole, standing);
  const [draft, setDraft] = useState<Draft>(() => draftOf(form, now.unit));
  const lacks = missing(form, draft);
  const save = (): void => {
    const cells = Object.fromEntries(
      form.fields.map((f) => [
        f.column,
        completeLength({ text: draft.values[f.column] ?? '', unit: draft.units[f.column] ?? 'm' }),
      ]),
    );
    store.addReading('pushes', { ...form.fixed, ...cells });
    setDraft(draftOf(pushForm(hole, [...standing, { row_id: '', cells }]), now.unit));
  };
  return (
    <div className="drill pushes">
      <section className="push-list" aria-label="pushes so far">
        <h2>
          {standing.length === 0
            ? 'No push yet'
            : `${standing.length} ${standing.length === 1 ? 'push' : 'pushes'}`}
        </h2>
        <table>
          <thead>
            <tr>
              <th scope="col">push</th>
              <th scope="col">from</th>
              <th scope="col">to</th>
              <th scope="col">came up</th>
              <th scope="col">inside, outside</th>
              <th scope="col">
                <span className="unseen">withdraw</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {standing.map((r) => (
              <tr key={r.row_id}>
                <th scope="row">{r.cells['push']}</th>
                <td>{r.cells['from']}</td>
                <td>{r.cells['to']}</td>
                <td>{r.cells['recovered'] ?? ''}</td>
                <td>{[r.cells['inside_top'], r.cells['outside_top']].filter(Boolean).join(', ')}</td>
                <td>
                  <button
                    type="button"
                    aria-label={`Withdraw push ${r.cells['push'] ?? ''}`}
                    disabled={store.readOnly}
                    onClick={() => store.withdraw('pushes', r.row_id)}
                  >
                    <Mark name="rejected" size={22} />
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <div className="below">
        <Entry
          form={form}
          draft={draft}
          now={now}
          onDraft={setDraft}
          onEnter={() => (lacks === '' ? save() : undefined)}
          onLeave={() => setDraft(draftOf(form, now.unit))}
        />
      </div>
      <div className="act">
        <ActionBar
          mark="tick"
          does={form.verb}
          then={lacks === '' ? undefined : `needs ${lacks}`}
          disabled={lacks !== '' || store.readOnly}
          onClick={save}
        />
        <span />
      </div>
    </div>
  );
}
