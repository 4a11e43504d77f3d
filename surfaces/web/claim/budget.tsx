/**
 * The error of one point as a picture that can be edited: its parts laid end to end by their share of the variance,
 * longest first. What is edited moves the sum at once; it becomes a row of `point_errors` when the hand lets go.
 */

import { isAssumed, type PointResult } from '@stillstand/campaign/results';
import { capital } from '@stillstand/campaign/tables';
import { partName, sharedThrough } from '@stillstand/output/words';
import type { DeclaredError, HeightError } from '@stillstand/science/points';
import { useState } from 'react';
import { useComputation } from '../compute/index.ts';
import { Button, counted, decimalsFor, Mark, printed } from '../parts/index.ts';
import { useStore } from '../store/index.ts';
import './budget.css';
import { longestFirst } from './claim.ts';
import { addPart } from './declared-part.ts';
import { NewPart } from './new-part.tsx';
import { PartEditor } from './part-editor.tsx';

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
