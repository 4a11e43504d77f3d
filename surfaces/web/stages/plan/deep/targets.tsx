/** How deep each planned hole is meant to go, typed in place or taken from what is expected, and the pipe that takes. */
import { plannedDepths } from '@stillstand/campaign/holes';
import { bareUnit, parseLength } from '@stillstand/campaign/tables';
import { useComputation } from '../../../compute/index.ts';
import { ColumnField } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { PipeToCarry } from '../gear/pipe.tsx';
import { ExpectedContacts } from './expected-contacts.tsx';

export function HowDeep() {
  const store = useStore();
  const { campaign, results } = useComputation();
  const lengthUnit = store.setting('length_unit');
  const unit = bareUnit(lengthUnit);
  const planned = store.rows('holes').filter(({ cells }) => cells['state']?.trim() === 'planned');
  const take = (row_id: string, typed: string): unknown =>
    store.editRow('holes', row_id, { target_depth: typed });
  const pipes = (campaign?.rows.pipes ?? []).map(({ pipe, makeup_loss_m, mass_kg_per_m }) => ({
    pipe,
    makeup_loss: makeup_loss_m === null ? '' : `${(makeup_loss_m * 100).toFixed(1)} cm`,
    mass_kg_per_m,
  }));
  return (
    <>
      {planned.length === 0 ? null : (
        <section className="rows" aria-labelledby="deep-title">
          <h2 id="deep-title">Target depth</h2>
          <div className="fields">
            {planned.map(({ row_id, cells }) => (
              <ColumnField
                key={row_id}
                table="holes"
                column="target_depth"
                name={nameOf(cells)}
                value={cells['target_depth'] ?? ''}
                disabled={store.readOnly}
                lengthUnit={lengthUnit}
                onCommit={(typed) => take(row_id, typed)}
              />
            ))}
          </div>
          {planned.map(({ row_id, cells }) => {
            const expectation = results?.expectations.find((each) => each.hole_row_id === row_id);
            if (expectation === undefined) return null;
            const typed = parseLength(cells['target_depth'] ?? '', { unit });
            return (
              <ExpectedContacts
                key={row_id}
                hole={nameOf(cells)}
                expectation={expectation}
                unit={unit === 'ft' || unit === 'cm' ? unit : 'm'}
                target_m={typed.ok ? typed.metres : null}
                onTake={store.readOnly ? undefined : (depth) => take(row_id, depth)}
              />
            );
          })}
        </section>
      )}
      <PipeToCarry pipes={pipes} targets={plannedDepths(campaign?.rows.holes ?? [])} />
    </>
  );
}

const nameOf = (cells: Readonly<Record<string, string>>): string => cells['hole']?.trim() || 'not named';
