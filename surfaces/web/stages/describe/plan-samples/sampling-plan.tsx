/** What is to be taken from a hole, typed in place: by depth or by unit. One press makes a sample of it. */
import { cutWords, plannedSamples, plannedWhere } from '@stillstand/campaign/chain';
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, ColumnField, Mark } from '../../../parts/index.ts';
import { useNavigate, useOpenRow } from '../../../shell/index.ts';
import { type DocRow, useStore } from '../../../store/index.ts';
import type { Changes } from '../changes.ts';
import type { Described } from '../described.ts';
import type { Chosen } from '../drawing/drawing.tsx';
import { addPlanned, cutFor, takePlanned, tapeUnit } from './planning.ts';
import './sampling-plan.css';

const COLUMNS = ['sample', 'top', 'bottom', 'unit', 'material', 'purpose', 'identifier', 'note'] as const;
const STATE = {
  planned: { mark: 'sample', word: 'planned' },
  taken: { mark: 'tick', word: 'taken' },
  missed: { mark: 'close', word: 'not taken, and the hole has ended' },
} as const;

interface PlanProps {
  described: Described;
  changes: Changes;
  onChoose: (chosen: Chosen) => void;
}

export function SamplingPlan({ described, changes: { act }, onChoose }: PlanProps) {
  const store = useStore();
  const navigate = useNavigate();
  const { campaign } = useComputation();
  const { hole } = described.hole;
  const [added, setAdded] = useState<string | null>(null);
  const rows = store.rows('planned_samples').filter(({ cells }) => cells['hole']?.trim() === hole);
  const parsed = useMemo(
    () => new Map(campaign === null ? [] : plannedSamples(campaign).map((of) => [of.row.row_id, of])),
    [campaign],
  );
  return (
    <section className="panel-part sampling-plan" aria-label="Sampling plan">
      <h2>Sampling plan</h2>
      {rows.length === 0 ? <p className="quiet">No sample is planned in this hole.</p> : null}
      <ul>
        {rows.map((row) => {
          const known = parsed.get(row.row_id) ?? null;
          const { mark, word } = STATE[known?.state ?? 'planned'];
          const where = known === null ? '' : plannedWhere(known.row);
          return (
            <li key={row.row_id}>
              <details open={row.row_id === added}>
                <summary>
                  <Mark name={mark} size={18} />
                  <span>
                    <b>{row.cells['sample']}</b>
                    {where === '' ? '' : `, ${where}`}: {known === null ? 'cannot be read yet' : word}
                  </span>
                </summary>
                <PlannedFields row={row} />
                {store.readOnly ? null : (
                  <Button
                    kind="danger"
                    mark="remove"
                    onClick={() =>
                      act(
                        [{ change: 'remove', table: 'planned_samples', row_id: row.row_id }],
                        `Planned sample ${row.cells['sample']} deleted. Undo restores it.`,
                      )
                    }
                  >
                    Delete planned sample
                  </Button>
                )}
              </details>
              {known === null || known.state === 'taken' || store.readOnly ? null : (
                <TakePlanned {...{ known, described, act, onChoose }} />
              )}
            </li>
          );
        })}
      </ul>
      <p className="acts">
        {store.readOnly ? null : (
          <Button
            mark="plus"
            onClick={() => {
              const [id] = act(addPlanned(store.rows, hole), '');
              setAdded(id ?? null);
            }}
          >
            Plan a sample
          </Button>
        )}
        {rows.length === 0 ? null : (
          <Button mark="save" onClick={() => navigate('Describe', { view: 'labels', hole, of: 'planned' })}>
            Print planned labels
          </Button>
        )}
      </p>
    </section>
  );
}

function PlannedFields({ row }: { row: DocRow }) {
  const store = useStore();
  return (
    <div className="fields">
      {COLUMNS.map((column) => (
        <ColumnField
          key={column}
          table="planned_samples"
          column={column}
          value={row.cells[column] ?? ''}
          disabled={store.readOnly}
          lengthUnit={store.setting('length_unit')}
          onCommit={(typed) => store.editRow('planned_samples', row.row_id, { [column]: typed })}
        />
      ))}
    </div>
  );
}

function TakePlanned({
  known,
  described,
  act,
  onChoose,
}: {
  known: ReturnType<typeof plannedSamples>[number];
  described: Described;
  act: Changes['act'];
  onChoose: (chosen: Chosen) => void;
}) {
  const store = useStore();
  const openRow = useOpenRow();
  const unit = tapeUnit(store.setting('length_unit'));
  const cut = cutFor(known.row, described);
  const take = (): void => {
    const words =
      cut === null
        ? `Sample ${known.row.sample} taken. Enter its depths.`
        : `Sample ${known.row.sample} taken from ${cutWords(cut, unit)}. Correct its depths where the cut is elsewhere.`;
    const [id] = act(takePlanned(known.row, cut, unit), words);
    if (id === undefined) return;
    if (cut === null) openRow({ table: 'samples', row_id: id });
    else onChoose({ kind: 'sample', id });
  };
  return (
    <p className="acts">
      <Button mark="sample" onClick={take}>
        Take {known.row.sample}
      </Button>
      <span className="quiet">
        {cut === null ? 'No core here reaches it yet.' : `Cut ${cutWords(cut, unit)}.`}
      </span>
    </p>
  );
}
