/**
 * The error of one point as a picture that can be edited: its parts laid end to end by their share of the variance,
 * longest first. What is edited moves the sum at once; it becomes a row of `point_errors` when the hand lets go.
 */

import type { PointResult } from '@stillstand/campaign/results';
import { capital } from '@stillstand/campaign/tables';
import { partName, sharedThrough } from '@stillstand/output/words';
import type { DeclaredError, ErrorShape, HeightError } from '@stillstand/science/points';
import { useEffect, useId, useState } from 'react';
import { useComputation } from '../compute/index.ts';
import { Button, columnHelp, counted, decimalsFor, Field, Mark, printed } from '../parts/index.ts';
import { type DocRow, type Store, useStore } from '../store/index.ts';
import { asDeclared, isOwnPart, longestFirst } from './claim.ts';
import './budget.css';

/** Names a part may have; people may write others. */
const USUAL = [
  'compaction',
  'sampling',
  'sample_thickness',
  'levelling',
  'inclination',
  'palaeotide',
  'reworking',
];

export function Budget({
  point,
  edited,
  onEdit,
  onWritten,
  parts,
}: {
  point: PointResult;
  /** A part as it is just now under the hand; null while none is. */
  edited: DeclaredError | null;
  onEdit: (edited: DeclaredError | null) => void;
  onWritten: (edited: DeclaredError) => void;
  /** All parts with the edit in them. */
  parts: readonly HeightError[];
}) {
  const store = useStore();
  const [open, setOpen] = useState<string | null>(null);
  const [isAdding, setAdding] = useState(false);
  // While a part is under the hand the rows keep their places.
  const order = longestFirst(point.components).map((part) => part.component);
  const shown = [...parts].sort((a, b) => place(order, a.component) - place(order, b.component));
  const total = shown.reduce((sum, part) => sum + part.sigma_m ** 2, 0);
  const [longest, ...rest] = shown;
  const { results } = useComputation();
  const sharers = (group: string): string => {
    const others = results?.points.filter(
      (each) => each.point !== point.point && each.components.some((part) => part.shared_group === group),
    );
    return others === undefined || others.length === 0
      ? ''
      : ` with ${counted(others.length, 'other point')}`;
  };
  let from = 0;
  return (
    <section className="budget" aria-label={`Error of ${point.point}`}>
      <header>
        <h2>Error budget</h2>
        <p className="quiet">parts end to end by share of the variance; ± is 2 sd</p>
      </header>
      <ol>
        {shown.map((part) => {
          const share = total > 0 ? part.sigma_m ** 2 / total : 0;
          const bar = { from, share };
          from += share;
          const isOpen = open === part.component;
          return (
            <li key={`${part.component} ${part.shared_group ?? ''}`}>
              <button
                type="button"
                className="part"
                aria-expanded={isOpen}
                onClick={() => {
                  onEdit(null);
                  setOpen(isOpen ? null : part.component);
                }}
              >
                <span className="name">
                  {partWords(part.component)}
                  {part.shared_group === null ? null : <SharedLinks />}
                  {isAssumed(part) ? <Mark name="assumed" size={14} label="assumed" /> : null}
                </span>
                <span className="lane" aria-hidden="true">
                  <span
                    className={`bar ${part.shape}`}
                    style={{ left: `${100 * bar.from}%`, width: `${100 * bar.share}%` }}
                  />
                </span>
                <span className="size">
                  ±{printed(2 * part.sigma_m, Math.max(2, decimalsFor(2 * part.sigma_m, 2)))}
                </span>
                <span className="share">{share < 0.005 ? '<1' : printed(100 * share, 0)} %</span>
                <span className="from">
                  {part.shared_group === null
                    ? ''
                    : `shared through ${sharedThrough(part)}${sharers(part.shared_group)}; `}
                  {part.source}
                </span>
              </button>
              {isOpen ? (
                <PartEditor
                  key={part.component}
                  store={store}
                  point={point}
                  part={part}
                  edited={edited}
                  onEdit={onEdit}
                  onWritten={onWritten}
                />
              ) : null}
            </li>
          );
        })}
      </ol>
      {longest === undefined || rest.length === 0 ? null : <Improve longest={longest} total={total} />}
      {store.readOnly ? null : isAdding ? (
        <NewPart
          taken={new Set(order)}
          onAdd={(component) => {
            setAdding(false);
            addPart(store, point.point, component);
            setOpen(component);
          }}
          onLeave={() => setAdding(false)}
        />
      ) : (
        <Button mark="plus" onClick={() => setAdding(true)}>
          Add a part
        </Button>
      )}
    </section>
  );
}

const place = (order: readonly string[], component: string): number => {
  const at = order.indexOf(component);
  return at === -1 ? order.length : at;
};

const isAssumed = (part: HeightError): boolean => part.source.startsWith('assumed');

/** "sample_thickness" → "Sample thickness". */
const partWords = (component: string): string => capital(partName(component));

function SharedLinks() {
  return (
    <svg className="mark" viewBox="0 0 20 14" width={18} height={13} role="img" aria-label="shared">
      <g fill="none" stroke="currentColor" strokeWidth={2}>
        <circle cx="7" cy="7" r="5" />
        <circle cx="13" cy="7" r="5" />
      </g>
    </svg>
  );
}

/** What the longest part is worth. */
function Improve({ longest, total }: { longest: HeightError; total: number }) {
  const now = 2 * Math.sqrt(total);
  const then = 2 * Math.sqrt(total - 0.75 * longest.sigma_m ** 2);
  const decimals = decimalsFor(now, 2);
  return (
    <p className="improve">
      The longest part ({partName(longest.component)}) is what to improve: half as large, it would take ±
      {printed(now, decimals)} to ±{printed(then, decimals)} m.
    </p>
  );
}

const cell = (row: DocRow, column: string): string => row.cells[column]?.trim() ?? '';

function errorRow(store: Store, point: string, component: string): DocRow | undefined {
  return store
    .rows('point_errors')
    .find((row) => cell(row, 'point') === point && cell(row, 'component') === component);
}

/** Writes a part down: the row it has is edited, else it gets one. */
function declare(store: Store, point: string, part: DeclaredError): void {
  const cells = {
    value_m: String(part.value_m),
    sigma_level: String(part.sigma_level),
    shape: part.shape,
    shared_group: part.shared_group ?? '',
  };
  const row = errorRow(store, point, part.component);
  if (row === undefined) store.addRow('point_errors', { point, component: part.component, ...cells });
  else store.editRow('point_errors', row.row_id, cells);
}

function addPart(store: Store, point: string, component: string): void {
  declare(store, point, {
    component,
    value_m: 0.1,
    sigma_level: 2,
    shape: component === 'compaction' ? 'one_sided' : 'normal',
    shared_group: null,
    source: 'declared',
  });
}

const SIZE_WORDS: Record<ErrorShape, string> = {
  normal: 'Size',
  uniform: 'Half width',
  one_sided: 'Scale',
};

function PartEditor({
  store,
  point,
  part,
  edited,
  onEdit,
  onWritten,
}: {
  store: Store;
  point: PointResult;
  part: HeightError;
  edited: DeclaredError | null;
  onEdit: (edited: DeclaredError | null) => void;
  onWritten: (edited: DeclaredError) => void;
}) {
  const row = errorRow(store, point.point, part.component);
  // As it was before the hand took hold: what is in `part` may be under it just now.
  const original = point.components.find((each) => each.component === part.component) ?? part;
  const committed = row === undefined ? asDeclared(original) : declaredIn(row, original);
  const now = edited?.component === part.component ? edited : committed;
  const groups = [
    ...new Set(store.rows('point_errors').map((each) => cell(each, 'shared_group'))),
    ...(part.shared_group === null ? [] : [part.shared_group]),
  ].filter((group) => group !== '');
  if (isOwnPart(part.component)) {
    return (
      <p className="fixed">
        {part.component === 'indicative_range'
          ? 'Half the width between the two limits of the meaning. To narrow it, name a kind of deposit with closer limits.'
          : 'As stated with the tide levels of the site, the same for every point there. To lower it, read the gauge longer, or tie it to a better station.'}
      </p>
    );
  }
  if (store.readOnly) return <p className="fixed">{part.source}</p>;
  const commit = (to: DeclaredError): void => {
    if (isSame(to, committed)) onEdit(null);
    else {
      // It stays in sight until the computation has it.
      onWritten(to);
      declare(store, point.point, to);
    }
  };
  return (
    <div className="editor">
      <SizeField
        part={now}
        most={Math.max(0.5, 2 * committed.value_m)}
        onMove={(value_m) => onEdit({ ...now, value_m })}
        onLetGo={() => commit(now)}
      />
      <div className="fields">
        <Field
          name="Counted as"
          help={{
            about: 'How many standard deviations of a normal the size is; a range or a lowering has none',
          }}
        >
          {(input) => (
            <select
              {...input}
              value={String(now.sigma_level)}
              disabled={now.shape !== 'normal'}
              onChange={(event) => commit({ ...now, sigma_level: event.target.value === '1' ? 1 : 2 })}
            >
              <option value="1">1 sigma</option>
              <option value="2">2 sigma</option>
            </select>
          )}
        </Field>
        <Field name="Shape" help={columnHelp('point_errors', 'shape')}>
          {(input) => (
            <select
              {...input}
              value={now.shape}
              onChange={(event) => commit({ ...now, shape: event.target.value as ErrorShape })}
            >
              <option value="normal">normal</option>
              <option value="uniform">even over a range</option>
              <option value="one_sided">one-sided: it now lies lower</option>
            </select>
          )}
        </Field>
        <GroupField
          value={now.shared_group ?? ''}
          groups={groups}
          onCommit={(group) => commit({ ...now, shared_group: group === '' ? null : group })}
        />
      </div>
      {row === undefined ? (
        <p className="quiet">It is not declared yet; what you change here becomes its declared value.</p>
      ) : (
        <Button
          mark="undo"
          onClick={() => {
            onEdit(null);
            store.removeRow('point_errors', row.row_id);
          }}
        >
          Take the declared value back
        </Button>
      )}
    </div>
  );
}

function declaredIn(row: DocRow, part: HeightError): DeclaredError {
  const value = Number(cell(row, 'value_m').replace(',', '.'));
  const shape = cell(row, 'shape');
  return {
    ...asDeclared(part),
    value_m: Number.isFinite(value) ? value : asDeclared(part).value_m,
    sigma_level: cell(row, 'sigma_level') === '1' ? 1 : 2,
    shape: shape === 'uniform' || shape === 'one_sided' ? shape : 'normal',
    shared_group: cell(row, 'shared_group') || null,
  };
}

const isSame = (a: DeclaredError, b: DeclaredError): boolean =>
  a.value_m === b.value_m &&
  a.sigma_level === b.sigma_level &&
  a.shape === b.shape &&
  a.shared_group === b.shared_group;

/** A size typed, or drawn longer and shorter; the drawing follows while the hand moves. */
function SizeField({
  part,
  most,
  onMove,
  onLetGo,
}: {
  part: DeclaredError;
  most: number;
  onMove: (value_m: number) => void;
  onLetGo: () => void;
}) {
  const [typed, setTyped] = useState<string | null>(null);
  // The slider's upper end stays where it was when the hand took hold.
  const [end] = useState(most);
  const slider = useId();
  const isSize = typed === null || sizeOf(typed) !== null;
  const letGo = (): void => {
    setTyped(null);
    onLetGo();
  };
  return (
    <div className="size-field">
      <Field
        name={SIZE_WORDS[part.shape]}
        help={columnHelp('point_errors', 'value_m')}
        unit="m"
        fault={isSize ? null : `Found “${typed}”; expected metres from 0 to 100.`}
      >
        {(input) => (
          <input
            {...input}
            inputMode="decimal"
            autoComplete="off"
            value={typed ?? String(part.value_m)}
            onChange={(event) => {
              setTyped(event.target.value);
              const size = sizeOf(event.target.value);
              if (size !== null) onMove(size);
            }}
            onBlur={letGo}
            onKeyDown={(event) => {
              if (event.key === 'Enter') letGo();
            }}
          />
        )}
      </Field>
      <label className="unseen" htmlFor={slider}>
        {SIZE_WORDS[part.shape]} of {partName(part.component)}, drawn
      </label>
      <input
        id={slider}
        className="slider"
        type="range"
        min={0}
        max={end}
        step={0.005}
        value={part.value_m}
        onChange={(event) => onMove(Number(event.target.value))}
        onPointerUp={letGo}
        onKeyUp={letGo}
        onBlur={letGo}
      />
    </div>
  );
}

/** Metres as typed; null for what is no size. */
function sizeOf(typed: string): number | null {
  const value = Number(typed.trim().replace(',', '.'));
  return typed.trim() !== '' && value >= 0 && value <= 100 ? value : null;
}

function GroupField({
  value,
  groups,
  onCommit,
}: {
  value: string;
  groups: readonly string[];
  onCommit: (group: string) => void;
}) {
  const [typed, setTyped] = useState(value);
  const list = useId();
  useEffect(() => setTyped(value), [value]);
  const commit = (): void => {
    if (typed.trim() !== value) onCommit(typed.trim());
  };
  return (
    <Field
      name="Shared with"
      help={{
        about:
          'A name for an error this point shares with others: all that carry it are wrong by the same amount, so it does not average out. Empty: its own',
      }}
    >
      {(input) => (
        <>
          <input
            {...input}
            list={list}
            autoComplete="off"
            value={typed}
            placeholder="its own"
            onChange={(event) => setTyped(event.target.value)}
            onBlur={commit}
            onKeyDown={(event) => {
              if (event.key === 'Enter') commit();
            }}
          />
          <datalist id={list}>
            {groups.map((group) => (
              <option key={group} value={group} />
            ))}
          </datalist>
        </>
      )}
    </Field>
  );
}

function NewPart({
  taken,
  onAdd,
  onLeave,
}: {
  taken: ReadonlySet<string>;
  onAdd: (component: string) => void;
  onLeave: () => void;
}) {
  const [name, setName] = useState('');
  const list = useId();
  const component = name.trim().toLowerCase().replaceAll(/\s+/g, '_');
  const fault =
    component === ''
      ? null
      : taken.has(component)
        ? 'This part is there already; open it to change it.'
        : null;
  return (
    <form
      className="new-part"
      onSubmit={(event) => {
        event.preventDefault();
        if (component !== '' && fault === null) onAdd(component);
      }}
    >
      <Field name="Name of the part" help={columnHelp('point_errors', 'component')} fault={fault}>
        {(input) => (
          <>
            <input
              {...input}
              // biome-ignore lint/a11y/noAutofocus: it stands where the button just pressed was
              autoFocus
              list={list}
              autoComplete="off"
              value={name}
              onChange={(event) => setName(event.target.value)}
            />
            <datalist id={list}>
              {USUAL.filter((usual) => !taken.has(usual)).map((usual) => (
                <option key={usual} value={usual.replaceAll('_', ' ')} />
              ))}
            </datalist>
          </>
        )}
      </Field>
      <Button type="submit" kind="main" disabled={component === '' || fault !== null}>
        Add the part
      </Button>
      <Button onClick={onLeave}>Cancel</Button>
    </form>
  );
}
