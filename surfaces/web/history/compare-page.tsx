/** An earlier state of the campaign against the campaign now: numbers that changed, and the rows that did. */
import type { Comparison, NumberChange, RowChange, Side, Unit } from '@stillstand/campaign/compare';
import { capital } from '@stillstand/campaign/tables';
import { useMemo, useState } from 'react';
import { Button, counted, Plate, printed, signed, Table } from '../parts/index.ts';
import { type Act, momentWords, useStore } from '../store/index.ts';
import { CellChanges, cellsOfChange, type OpenRow, Restore, RowHead } from './act-rows.tsx';
import { useComparison } from './use-comparison.ts';
import './compare-page.css';

/** So many rows, or numbers, are shown until asked for the rest. */
const SHOWN = 30;

export function ComparePage({
  act,
  onOpenRow,
  onShow,
  onBack,
}: {
  /** The last that the earlier state knows; null: before the first. */
  act: Act | null;
  onOpenRow: OpenRow;
  onShow: (act: Act | null) => void;
  onBack: () => void;
}) {
  const store = useStore();
  const old = useMemo(() => store.documentAfter(act?.id ?? null), [store, act]);
  const now = store.document();
  const [withCurve, setWithCurve] = useState(false);
  const compared = useComparison(old, now, withCurve);
  return (
    <div className="compare">
      <p>
        {act === null
          ? 'The campaign before the first recorded change, and as it is now.'
          : `The campaign as it was on ${momentWords(act.time)}, and as it is now.`}
      </p>
      <p className="acts">
        <Button onClick={onBack}>Back to history</Button>
        <Button onClick={() => onShow(act)}>Show campaign as it was</Button>
      </p>
      {compared.state === 'failed' ? (
        <Plate state="danger" word="Not compared">
          <p>The computation stopped: {compared.words}. Nothing was changed.</p>
        </Plate>
      ) : compared.state === 'computing' ? (
        <p role="status">
          {withCurve
            ? `Computing both curves, ${Math.floor(100 * compared.share)} %`
            : 'Computing both states…'}
        </p>
      ) : (
        <>
          <Numbers comparison={compared.comparison} onOpen={onOpenRow} />
          {withCurve ? null : (
            <p className="acts">
              <Button onClick={() => setWithCurve(true)}>Compare curve and rates</Button>
              <span className="quiet">It takes the time of two curves.</span>
            </p>
          )}
          <Rows rows={compared.comparison.rows ?? []} onOpen={onOpenRow} />
        </>
      )}
    </div>
  );
}

type Change = Comparison['changes'][number];

function Numbers({ comparison: { changes }, onOpen }: { comparison: Comparison; onOpen: OpenRow }) {
  const [isWhole, setWhole] = useState(false);
  if (changes.length === 0) return <p>No computed number changed by more than rounding.</p>;
  const shown = isWhole ? changes : changes.slice(0, SHOWN);
  return (
    <section>
      <Table
        caption={`${counted(changes.length, 'number')} changed. ± is 2σ.`}
        columns={[
          { name: 'Number' },
          { name: 'Then', number: true },
          { name: 'Now', number: true },
          { name: 'Change', number: true },
          { name: 'Rows that changed under it' },
        ]}
      >
        {shown.map((each) => (
          <tr key={each.key}>
            <th scope="row">
              {capital(each.name)}, {each.unit}
            </th>
            <td className="number" data-name="Then">
              {sideWords(each.old, each)}
            </td>
            <td className="number" data-name="Now">
              {sideWords(each.now, each)}
            </td>
            <td className="number" data-name="Change">
              {each.difference === null ? '' : signed(each.difference, DECIMALS[each.unit])}
              {each.within_monte_carlo ? <small> within Monte Carlo error</small> : null}
            </td>
            <td>
              <Under rows={each.rows} onOpen={onOpen} />
            </td>
          </tr>
        ))}
      </Table>
      {shown.length < changes.length ? (
        <Button onClick={() => setWhole(true)}>Show {changes.length - shown.length} more numbers</Button>
      ) : null}
    </section>
  );
}

const DECIMALS: Readonly<Record<Unit, number>> = { m: 3, 'mm/yr': 2, 'cal BP': 0, ratio: 3 };

function sideWords(side: Side | null, { unit, isSigned }: NumberChange): string {
  if (side === null) return '–';
  const value = (isSigned ? signed : printed)(side.value, DECIMALS[unit]);
  const spread = side.sigma === null ? '' : ` ±${printed(2 * side.sigma, DECIMALS[unit])}`;
  return `${value}${spread}${side.status === null ? '' : `, ${side.status}`}`;
}

/** Of rows under one number so many are named. */
const NAMED = 4;

function Under({ rows, onOpen }: { rows: Change['rows']; onOpen: OpenRow }) {
  if (rows.length === 0) return <span className="quiet">none found</span>;
  return (
    <ul className="under">
      {rows.slice(0, NAMED).map(({ table, row_id, name, change }) => (
        <li key={`${table} ${row_id}`}>
          {change === 'removed' ? (
            `${name}, removed`
          ) : (
            <button type="button" onClick={() => onOpen({ table, row_id })}>
              {name}
            </button>
          )}
        </li>
      ))}
      {rows.length > NAMED ? <li>and {rows.length - NAMED} more</li> : null}
    </ul>
  );
}

const VERBS: Readonly<Record<RowChange['change'], string>> = {
  added: 'added since',
  removed: 'deleted since',
  changed: 'changed since',
};

function Rows({ rows, onOpen }: { rows: readonly RowChange[]; onOpen: OpenRow }) {
  const store = useStore();
  const [isWhole, setWhole] = useState(false);
  if (rows.length === 0) return <p>No row changed.</p>;
  const shown = isWhole ? rows : rows.slice(0, SHOWN);
  return (
    <section>
      <h2>{counted(rows.length, 'row')} changed</h2>
      <ul className="act-rows">
        {shown.map(({ table, row_id, change, cells }) => {
          const changed =
            change === 'added'
              ? cellsOfChange({ kind: 'add', table, row_id }, store)
              : cells.map(({ column, old, now }) => ({ column, before: old, after: now }));
          return (
            <li key={`${table} ${row_id}`}>
              <RowHead verb={VERBS[change]} table={table} row_id={row_id} onOpen={onOpen} />
              {change === 'removed' ? null : <CellChanges table={table} cells={changed} />}
              <Restore
                table={table}
                row_id={row_id}
                isGone={change === 'removed'}
                was={Object.fromEntries(changed.map(({ column, before }) => [column, before]))}
                onOpen={onOpen}
              />
            </li>
          );
        })}
      </ul>
      {shown.length < rows.length ? (
        <Button onClick={() => setWhole(true)}>Show {rows.length - shown.length} more rows</Button>
      ) : null}
    </section>
  );
}
