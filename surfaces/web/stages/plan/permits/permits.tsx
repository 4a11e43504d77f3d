/** Permits of the campaign as they are on one day: what stops, what warns, what they demand, each entered in place. */
import {
  conditionsNow,
  demandWords,
  PERMIT_CAUTION,
  type PermitState,
  permitsNow,
} from '@stillstand/campaign/holes';
import { capital } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { asTyped } from '../../../holes/index.ts';
import { Button, Mark, Plate } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { freeLabel } from '../records/free-label.ts';
import { RecordList } from '../records/record-list.tsx';

const COLUMNS = ['state', 'until', 'reference', 'held_by', 'conditions'] as const;
const MORE = [
  { title: 'More about the permit', columns: ['permit', 'kind', 'site', 'issued_by', 'from', 'note'] },
  {
    title: 'When a hole is ended',
    columns: ['closing_seal', 'closing_pipe', 'closing_report', 'report_due'],
  },
] as const;

/** `date` is the day planned, `2024-03-05`. */
export function Permits({ date }: { date: string }) {
  const store = useStore();
  const [added, setAdded] = useState<string | null>(null);
  const rows = store.rows('permits');
  const states = permitsNow(asTyped(store), date);
  const of = new Map(states.map((state) => [state.row_id, state]));
  const missing = states.filter(({ row_id }) => row_id === null);
  const stops = states.filter(({ level, row_id }) => level === 'stop' && row_id !== null);
  const conditions = conditionsNow(asTyped(store));
  const add = (label: string, cells: Readonly<Record<string, string>>): void =>
    setAdded(
      store.addRow('permits', {
        permit: freeLabel(
          label,
          rows.map(({ cells }) => cells['permit']?.trim() ?? ''),
        ),
        state: 'to_ask',
        ...cells,
      }),
    );
  return (
    <section className="rows permits" aria-labelledby="permits-title">
      <h2 id="permits-title">
        Permits <small>on {date}</small>
      </h2>
      {stops.length === 0 ? null : (
        <Plate state="danger" word="Do not drill">
          {stops.map(({ permit, words, row_id }) => (
            <p key={row_id}>
              {permit}: {words}
            </p>
          ))}
        </Plate>
      )}
      <Missing
        missing={missing}
        {...(store.readOnly
          ? {}
          : {
              onAdd: ({ permit, kind, site }: PermitState) =>
                add(capital(permit), { kind: kind!, site: site ?? '' }),
            })}
      />
      <RecordList
        table="permits"
        rows={rows}
        added={added}
        said={({ row_id, cells }) => ({
          name: cells['permit']?.trim() ?? '',
          words: of.get(row_id)?.words ?? 'cannot be read: correct its entries',
          level: of.get(row_id)?.level ?? 'stop',
        })}
        columns={COLUMNS}
        more={MORE}
        remove="Delete permit"
      />
      {conditions.length === 0 ? null : (
        <p className="small">
          <b>Conditions while drilling</b> {demandWords(conditions)}
        </p>
      )}
      {store.readOnly ? null : (
        <Button mark="plus" onClick={() => add('Permit', { kind: 'other' })}>
          Add permit
        </Button>
      )}
      <p className="quiet small">{PERMIT_CAUTION}</p>
    </section>
  );
}

/** What is not recorded, each with the key that begins its row. */
function Missing({
  missing,
  onAdd,
}: {
  missing: readonly PermitState[];
  onAdd?: (state: PermitState) => void;
}) {
  if (missing.length === 0) return null;
  return (
    <ul className="records">
      {missing.map((state) => (
        <li key={state.words} data-level={state.level} className="missing">
          <p>
            <Mark name={state.level === 'stop' ? 'stop' : 'close'} size={18} /> {state.words}
          </p>
          {onAdd === undefined ? null : (
            <Button
              mark="plus"
              aria-label={`Add ${state.permit}${atSite(state)}`}
              onClick={() => onAdd(state)}
            >
              Add
            </Button>
          )}
        </li>
      ))}
    </ul>
  );
}

const atSite = ({ site }: PermitState): string => (site === null ? '' : ` at ${site}`);
