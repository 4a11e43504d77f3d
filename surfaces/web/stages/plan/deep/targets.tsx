/** How deep each planned hole is meant to go, typed in place, and the pipe that takes. */
import { plannedDepths } from '@stillstand/campaign/holes';
import { useComputation } from '../../../compute/index.ts';
import { ColumnField } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { PipeToCarry } from '../gear/pipe.tsx';

export function HowDeep() {
  const store = useStore();
  const { campaign } = useComputation();
  const planned = store.rows('holes').filter(({ cells }) => cells['state']?.trim() === 'planned');
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
                name={cells['hole']?.trim() || 'not named'}
                value={cells['target_depth'] ?? ''}
                disabled={store.readOnly}
                lengthUnit={store.setting('length_unit')}
                onCommit={(typed) => store.editRow('holes', row_id, { target_depth: typed })}
              />
            ))}
          </div>
        </section>
      )}
      <PipeToCarry pipes={pipes} targets={plannedDepths(campaign?.rows.holes ?? [])} />
    </>
  );
}
