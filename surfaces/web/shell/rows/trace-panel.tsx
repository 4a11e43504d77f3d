/** "Where does this come from?": a number and what it was made of, layer by layer, down to readings that open in place. */
import type { TraceId, TraceNode } from '@stillstand/campaign/results';
import { isTableName, placeName, rowAsTyped } from '@stillstand/campaign/tables';
import { useContext, useEffect, useRef, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, ChangedContext, decimalsFor, Mark, printed, Sheet } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import { type RowPlace, rowPlace } from './places.ts';
import './trace-panel.css';

/** Layers open at first. */
const OPEN_LAYERS = 3;
/** In a layer so many are shown until asked for the rest. */
const SHOWN = 12;

interface TraceProps {
  id: TraceId;
  onOpen: (place: RowPlace) => void;
  onClose: () => void;
}

export function TracePanel({ id, onOpen, onClose }: TraceProps) {
  const nodes = useTrace(id);
  return (
    <Sheet title={questionOf(nodes?.get(id))} onClose={onClose}>
      <TraceWords id={id} nodes={nodes} onOpen={onOpen} />
    </Sheet>
  );
}

/** The same beside a drawing, for screens wide enough. */
export function TraceBeside({ id, onOpen, onClose }: TraceProps) {
  const nodes = useTrace(id);
  const here = useRef<HTMLElement>(null);
  const isThere = nodes !== null;
  useEffect(() => {
    // What was asked for must be seen, however much stands above it.
    if (isThere) here.current?.scrollIntoView({ block: 'nearest' });
  }, [isThere]);
  return (
    <section ref={here} className="trace-beside" aria-label="Where does this come from?">
      <header>
        <h2>{questionOf(nodes?.get(id))}</h2>
        <Button kind="bare" mark="cross" aria-label="Close the trace" onClick={onClose} />
      </header>
      <TraceWords id={id} nodes={nodes} onOpen={onOpen} />
    </section>
  );
}

type Nodes = ReadonlyMap<string, TraceNode>;

const questionOf = (top: TraceNode | undefined): string =>
  top === undefined ? 'Where does this come from?' : `Where does ${titleOf(top)} come from?`;

/** The nodes below a number; null until the computation has answered. */
function useTrace(id: TraceId): Nodes | null {
  const { trace, state } = useComputation();
  const [nodes, setNodes] = useState<Nodes | null>(null);
  useEffect(() => {
    let isCurrent = true;
    // Asked again when the numbers change.
    void state;
    void trace(id).then((found) => {
      if (isCurrent) setNodes(new Map(found.map((node) => [node.id, node])));
    });
    return () => {
      isCurrent = false;
    };
  }, [id, trace, state]);
  return nodes;
}

function TraceWords({
  id,
  nodes,
  onOpen,
}: {
  id: TraceId;
  nodes: Nodes | null;
  onOpen: (place: RowPlace) => void;
}) {
  const top = nodes?.get(id);
  const changed = useContext(ChangedContext)?.looked(id) ?? null;
  if (nodes === null) return <p role="status">Looking it up; the curve answers when it is computed.</p>;
  if (top === undefined) {
    return <p>This number is not in the current results. Its source row may have been deleted.</p>;
  }
  return (
    <>
      {changed === null ? null : (
        <p className="trace-changed">
          <Mark name="amended" size={18} />
          <span>
            Was <b>{changed.was}</b> until {changed.until}
          </span>
        </p>
      )}
      <p className="trace-note">± is 2 sd. A square is a reading; it opens in its place.</p>
      <ul className="trace" aria-label={`What ${top.label} was made of`}>
        <Branch node={top} nodes={nodes} layer={0} above={[]} onOpen={onOpen} />
      </ul>
    </>
  );
}

function Branch({
  node,
  nodes,
  layer,
  above,
  onOpen,
}: {
  node: TraceNode;
  nodes: Nodes;
  layer: number;
  above: readonly string[];
  onOpen: (place: RowPlace) => void;
}) {
  const parts = node.parts
    .flatMap((part) => nodes.get(part) ?? [])
    .filter((part) => !above.includes(part.id));
  const [isOpen, setOpen] = useState(layer < OPEN_LAYERS && parts.length <= SHOWN);
  const [isWhole, setWhole] = useState(false);
  const shown = isWhole ? parts : parts.slice(0, SHOWN);
  const place = node.row === null ? null : rowPlace(node.row.table, node.row.row_id);
  return (
    <li>
      <div className="node">
        {parts.length > 0 ? (
          <button type="button" className="told" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
            <span className="turn">
              <Mark name="on" size={14} />
            </span>
            <Words node={node} />
          </button>
        ) : place !== null ? (
          <button type="button" className="told" onClick={() => onOpen(place)}>
            <Mark name="reading" size={16} />
            <Words node={node} />
          </button>
        ) : (
          <div className="told">
            <Words node={node} />
          </div>
        )}
        <Amount node={node} />
      </div>
      {isOpen && parts.length > 0 ? (
        <ul>
          {shown.map((part) => (
            <Branch
              key={part.id}
              node={part}
              nodes={nodes}
              layer={layer + 1}
              above={[...above, node.id]}
              onOpen={onOpen}
            />
          ))}
          {shown.length < parts.length ? (
            <li>
              <button type="button" className="rest" onClick={() => setWhole(true)}>
                and {parts.length - shown.length} more
              </button>
            </li>
          ) : null}
        </ul>
      ) : null}
    </li>
  );
}

function Words({ node }: { node: TraceNode }) {
  return (
    <span className="words">
      <b>{node.label}</b>{' '}
      <span className="how">{node.row === null ? node.how : <Typed row={node.row} />}</span>
    </span>
  );
}

/** The cells of a row as they were typed. */
function Typed({ row }: { row: { table: string; row_id: string } }) {
  const store = useStore();
  if (!isTableName(row.table)) return null;
  const rows = store.rows(row.table);
  const found = rows.find((r) => r.row_id === row.row_id);
  if (found === undefined) return <>{placeName(row.table, {})}</>;
  return (
    <>
      {rowAsTyped(
        row.table,
        found.cells,
        rows.map(({ cells }) => cells),
      )}
    </>
  );
}

function Amount({ node }: { node: TraceNode }) {
  if (node.value === null) return null;
  if (typeof node.value === 'string') return <span className="amount">{node.value}</span>;
  const isAge = node.unit === 'cal BP';
  const decimals =
    node.sigma === null ? (isAge || node.unit === 'yr' ? 0 : 2) : decimalsFor(2 * node.sigma, 0, 3);
  if (isAge && node.sigma !== null) {
    // A calendar age is no middle with a ± about it.
    return (
      <span className="amount">
        <span className="unit">median</span> <b>{printed(node.value, 0)}</b>
        <span className="unit"> {node.unit}</span> <span className="pm">sd {printed(node.sigma, 0)}</span>
      </span>
    );
  }
  return (
    <span className="amount">
      <b>{printed(node.value, decimals)}</b>
      {node.unit === '' ? null : <span className="unit"> {node.unit}</span>}
      {node.sigma === null ? null : <span className="pm"> ±{printed(2 * node.sigma, decimals)}</span>}
    </span>
  );
}

function titleOf(node: TraceNode): string {
  if (typeof node.value !== 'number') return node.label.charAt(0).toLowerCase() + node.label.slice(1);
  return `${printed(node.value, node.sigma === null ? 2 : decimalsFor(2 * node.sigma, 0, 3))}${node.unit === '' ? '' : ` ${node.unit}`}`;
}
