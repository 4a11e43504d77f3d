/** One sample or core: where it is, what it cost, and every entry about it, the last first. */
import { type Custody, costsWords, custodyWords, overdueDays, placeWords } from '@stillstand/campaign/chain';
import { capital, dateOf } from '@stillstand/campaign/tables';
import { Button, Mark, Table } from '../../../parts/index.ts';
import { useNavigate, useOpenRow } from '../../../shell/index.ts';
import { ACTIONS } from './entry-fields.ts';

type Entry = Custody['entries'][number];

export function History({ of }: { of: Custody }) {
  const openRow = useOpenRow();
  const navigate = useNavigate();
  const { name, thing, entries, waiting, condition, left, costs, results } = of;
  const isLate = overdueDays(of) !== null;
  const place = placeWords(of);
  return (
    <section className="chain-history" aria-label={`Chain of ${name}`}>
      <h3>{thing.kind === 'sample' ? `Sample ${name}` : `Core ${name}`}</h3>
      <p className={isLate ? 'caution-line' : undefined}>
        {isLate ? <Mark name="close" size={18} label="overdue" /> : null} {capital(custodyWords(of))}.
      </p>
      <dl className="chain-facts">
        {fact('place', place)}
        {fact('condition', condition ?? '')}
        {fact('what is left', left ?? '')}
        {fact('asked for', waiting?.request ?? '')}
        {fact('cost', costsWords(costs))}
      </dl>
      <p className="acts">
        {of.hole === null ? null : (
          <Button
            mark="sample"
            onClick={() =>
              navigate('Describe', { hole: of.hole!, ...(thing.kind === 'sample' ? { row: of.row_id } : {}) })
            }
          >
            Show in hole {of.hole}
          </Button>
        )}
        {thing.kind === 'sample' && results.lab_codes.length > 0 ? (
          <Button mark="dated" onClick={() => navigate('Date', { sample: thing.sample })}>
            Open its date
          </Button>
        ) : null}
        {thing.kind === 'sample' && waiting?.submission != null ? (
          <Button onClick={() => navigate('Describe', { view: 'submission', parcel: waiting.submission! })}>
            Show submission sheet
          </Button>
        ) : null}
      </p>
      {entries.length === 0 ? null : (
        <Table caption="Entries" columns={[{ name: 'day' }, { name: 'what was done' }, { name: 'details' }]}>
          {[...entries].reverse().map((entry) => (
            <tr key={entry.row_id}>
              <th scope="row">
                <button
                  type="button"
                  className="row-name"
                  onClick={() => openRow({ table: 'custody', row_id: entry.row_id })}
                >
                  {entry.amends === null ? null : <Mark name="amended" size={16} label="amended" />}
                  {entry.date ?? dateOf(entry.time) ?? 'no day'}
                </button>
              </th>
              <td>{ACTIONS[entry.action].done}</td>
              <td>{detailsOf(entry)}</td>
            </tr>
          ))}
        </Table>
      )}
    </section>
  );
}

const fact = (name: string, words: string) =>
  words === '' ? null : (
    <div key={name}>
      <dt>{name}</dt>
      <dd>{words}</dd>
    </div>
  );

function detailsOf(entry: Entry): string {
  return [
    entry.laboratory,
    entry.submission === null ? null : `parcel ${entry.submission}`,
    entry.request,
    entry.due === null ? null : `due ${entry.due}`,
    placeWords(entry),
    entry.condition,
    entry.left === null ? null : `left: ${entry.left}`,
    entry.cost === null ? null : costsWords([{ currency: entry.currency ?? '', sum: entry.cost }]),
    entry.by === null ? null : `by ${entry.by}`,
    entry.note,
  ]
    .filter((part) => part !== null && part !== '')
    .join(', ');
}
