/** The gear that follows from the plan: each line with its reason, what is at hand, and a tick for the day it is packed. */
import type { PackingLine } from '@stillstand/campaign/holes';
import { useState } from 'react';
import { Button, counted, Field, Mark, typedKeys, useUnsaved } from '../../../parts/index.ts';
import { type Store, useStore } from '../../../store/index.ts';
import { AssumedGear } from './assumed-gear.tsx';
import { packingGaps } from './use-packing.ts';
import './gear-list.css';

export function GearList({
  lines,
  date,
}: {
  lines: readonly PackingLine[];
  /** The day they are packed for, `2024-03-05`. */
  date: string;
}) {
  const store = useStore();
  const { short, unpacked } = packingGaps(lines);
  return (
    <section className="rows gear-list" aria-labelledby="gear-title">
      <h2 id="gear-title">
        Gear that follows <small>from depth, pipe, tide and time; kept for next time</small>
      </h2>
      {lines.some(({ computed }) => computed !== null) ? null : (
        <p className="quiet small">Plan a hole with a target depth: what it needs is listed here.</p>
      )}
      <ul>
        {lines.map((line) => (
          <Line key={line.line ?? line.row_id} line={line} date={date} />
        ))}
      </ul>
      {lines.length === 0 ? null : (
        <p className="small" role="status">
          {unpacked === 0 ? 'Everything is packed.' : `${counted(unpacked, 'line')} not packed.`}
          {short.length === 0 ? '' : ` Short: ${short.join(', ')}.`}
        </p>
      )}
      {store.readOnly ? null : <OwnLine taken={lines.map(({ item }) => item)} />}
      <AssumedGear />
      <p className="quiet small">
        Amounts are rounded up. Common practice, no source: makers’ manuals, permits and local codes take
        precedence.
      </p>
    </section>
  );
}

/** Cells of a line, whether or not the crew has a row of it yet. */
function write(
  store: Store,
  { row_id, line, item }: PackingLine,
  cells: Readonly<Record<string, string>>,
): void {
  if (row_id === null) store.addRow('packing', { item, line: line ?? '', ...cells });
  else store.editRow('packing', row_id, cells);
}

function Line({ line, date }: { line: PackingLine; date: string }) {
  const store = useStore();
  const { item, unit, computed, isOwnAmount, isPacked, short, doubts, row_id } = line;
  const ofComputed = computed?.amount ?? null;
  const why = [
    ...(isOwnAmount && ofComputed !== null ? [`computed ${amountWords(ofComputed, computed!.unit)}`] : []),
    ...(computed === null ? [] : [computed.why]),
  ];
  const isShort = (short ?? 0) > 0;
  const name = unit === '' ? item : `${item}, ${unit}`;
  return (
    <li data-packed={isPacked}>
      <label className="tick">
        <input
          type="checkbox"
          aria-label={`Packed: ${item}`}
          title="Packed for this day; a new day begins without ticks"
          checked={isPacked}
          disabled={store.readOnly}
          onChange={() => write(store, line, { packed: isPacked ? '' : date })}
        />
      </label>
      <div className="what">
        <b>{computed === null ? name : item}</b>
        {why.length === 0 ? null : <span className="quiet">{why.join('; ')}</span>}
        {isShort ? (
          <span className="short">
            <Mark name="close" size={16} /> {amountWords(short!, unit)} short; at hand:{' '}
            {computed!.atHand.words}
          </span>
        ) : computed === null || computed.atHand.amount === null ? null : (
          <span className="quiet">At hand: {computed.atHand.words}</span>
        )}
        {doubts.map((doubt) => (
          <span key={doubt} className="doubt" role="status">
            <Mark name="close" size={16} /> {doubt}
          </span>
        ))}
      </div>
      <Amount
        name={`Amount of ${name}`}
        typed={
          store
            .rows('packing')
            .find((row) => row.row_id === row_id)
            ?.cells['amount']?.trim() ?? ''
        }
        computed={ofComputed}
        disabled={store.readOnly}
        onCommit={(amount) => write(store, line, { amount })}
      />
      {computed !== null || store.readOnly ? (
        <span className="unit">{unit}</span>
      ) : (
        <Button
          kind="bare"
          mark="cross"
          aria-label={`Delete ${item}`}
          onClick={() => store.removeRow('packing', row_id!)}
        />
      )}
    </li>
  );
}

const amountWords = (amount: number, unit: string): string =>
  unit === '' ? `${amount}` : `${amount} ${unit}`;

/** The computed amount until the crew types its own; emptied, or typed alike, the computed one holds again. */
function Amount({
  name,
  typed: own,
  computed,
  disabled,
  onCommit,
}: {
  name: string;
  typed: string;
  computed: number | null;
  disabled: boolean;
  onCommit: (amount: string) => void;
}) {
  const [typed, setTyped] = useState<string | null>(null);
  const shown = own === '' ? String(computed ?? '') : own;
  useUnsaved(typed !== null && typed !== shown);
  const commit = (): void => {
    if (typed === null) return;
    const next = typed.trim() === String(computed) ? '' : typed.trim();
    if (next !== own) onCommit(next);
    setTyped(null);
  };
  return (
    <input
      className="amount"
      aria-label={name}
      title="How much is taken; empty it to take the computed amount"
      inputMode="decimal"
      autoComplete="off"
      value={typed ?? shown}
      disabled={disabled}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={commit}
      onKeyDown={typedKeys(typed !== null, commit, () => setTyped(null))}
    />
  );
}

/** A line of the crew's own: what it is, and where it is countable how much. */
function OwnLine({ taken }: { taken: readonly string[] }) {
  const store = useStore();
  const [cells, setCells] = useState({ item: '', amount: '', unit: '' });
  const item = cells.item.trim();
  const isTaken = taken.some((name) => name.toLowerCase() === item.toLowerCase());
  useUnsaved(item !== '');
  const field = (name: string, key: keyof typeof cells, about: string) => (
    <Field name={name} help={{ about }}>
      {(input) => (
        <input
          {...input}
          value={cells[key]}
          autoComplete="off"
          onChange={(event) => setCells((before) => ({ ...before, [key]: event.target.value }))}
        />
      )}
    </Field>
  );
  return (
    <form
      className="own-line"
      onSubmit={(event) => {
        event.preventDefault();
        if (item === '' || isTaken) return;
        store.addRow('packing', cells);
        setCells({ item: '', amount: '', unit: '' });
      }}
    >
      {field('Own line', 'item', 'Something else to be taken along; it is kept for the next day')}
      {field('Amount', 'amount', 'How much of it, a number; may be left empty')}
      {field('Unit', 'unit', 'Unit of the amount: m, L, kg; empty for pieces')}
      <Button mark="plus" type="submit" disabled={item === '' || isTaken}>
        Add line
      </Button>
      {isTaken ? <p className="says-why">{item} is on the list already.</p> : null}
    </form>
  );
}
