/** What the tide of the day is made from: levels of the site and constants of its gauge. */
import { useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { RowsTable } from '../rows-table.tsx';
import { AnalysisEntry } from '../tide/analysis-entry.tsx';
import { ConstantsEntry } from '../tide/constants-entry.tsx';
import { LevelsEntry } from '../tide/levels-entry.tsx';

export function TideTables({ site }: { site: string }) {
  const store = useStore();
  const { results } = useComputation();
  const [entering, setEntering] = useState<'paste' | 'analysis' | 'levels' | null>(null);
  const close = (): void => setEntering(null);
  return (
    <>
      <RowsTable
        table="tide_levels"
        caption="Tide levels"
        columns={['level', 'elevation_m', 'sigma_m', 'datum', 'epoch', 'source']}
        add="Add a tide level"
        prefill={site === '' ? {} : { site }}
        foot={
          store.readOnly ? null : (
            <Button mark="plus" onClick={() => setEntering('levels')}>
              Compute levels from the constants
            </Button>
          )
        }
      />
      <RowsTable
        table="constituents"
        caption="Tidal constants"
        columns={[
          'constituent',
          'gauge',
          'amplitude_m',
          'amplitude_sigma_m',
          'phase_deg',
          'phase_sigma_deg',
          'source',
        ]}
        add="Add a constant"
        foot={
          store.readOnly ? null : (
            <div className="acts">
              <Button mark="plus" onClick={() => setEntering('paste')}>
                Paste tidal constants
              </Button>
              <Button mark="plus" onClick={() => setEntering('analysis')}>
                Find constants in the readings
              </Button>
            </div>
          )
        }
      />
      <RowsTable
        table="gauges"
        caption="Gauges"
        columns={['gauge', 'site', 'datum', 'zero_elevation_m', 'sigma_m']}
        add="Add a gauge"
        prefill={site === '' ? {} : { site }}
      />
      {entering === 'paste' ? <ConstantsEntry site={site} onClose={close} /> : null}
      {entering === 'analysis' ? <AnalysisEntry onClose={close} /> : null}
      {entering === 'levels' ? (
        <LevelsEntry site={site} datum={results?.datum.label ?? ''} onClose={close} />
      ) : null}
    </>
  );
}
