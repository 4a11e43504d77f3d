/** Pipe, samplers, rated parts and instruments, each as it is recorded. */
import { samplerInventory } from '@stillstand/campaign/holes';
import { useComputation } from '../../../compute/index.ts';
import { SamplersAway } from '../gear/samplers-away.tsx';
import { PipeStock } from '../gear/stock.tsx';
import { RowsTable } from '../rows-table.tsx';

export function GearTables() {
  const { campaign } = useComputation();
  return (
    <>
      <PipeStock />
      <RowsTable
        table="pipes"
        caption="Pipe"
        columns={['pipe', 'outside_diameter_mm', 'wall_mm', 'mass_kg_per_m', 'makeup_loss']}
        add="Add a kind of pipe"
      />
      <RowsTable
        table="samplers"
        caption="Samplers"
        columns={['sampler', 'kind', 'length', 'bore_mm', 'mass_kg']}
        add="Add a sampler"
        foot={<SamplersAway samplers={campaign === null ? [] : samplerInventory(campaign)} />}
      />
      <RowsTable
        table="gear"
        caption="Gear"
        columns={['gear', 'kind', 'count', 'marks', 'condition', 'left_in']}
        add="Add gear"
      />
      <RowsTable
        table="rated_gear"
        caption="Rated gear"
        columns={['part', 'marking', 'rated_load_kn']}
        add="Add a part"
        foot={
          <p className="quiet small">
            What is marked on rope, winch, sheave block, hook, shackle, mast and anchor. A competent person
            checks it; makers’ manuals and local codes take precedence.
          </p>
        }
      />
      <RowsTable
        table="instrument_checks"
        caption="Instrument checks"
        columns={['instrument', 'kind', 'known', 'observed', 'date']}
        add="Add an instrument check"
        foot={
          <p className="quiet small">
            Nothing is corrected. An offset beyond the error of reading it is a warning and widens the errors.
          </p>
        }
      />
    </>
  );
}
