/** What the tide of the day is made from: levels of the site and constants of its gauge. */
import { useState } from 'react';
import { Button } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { RowsTable } from '../rows-table.tsx';
import { AnalysisEntry } from '../tide/analysis-entry.tsx';
import { ConstantsEntry } from '../tide/constants-entry.tsx';
import { TideLevels } from '../tide/levels/tide-levels.tsx';

export function TideTables({ site }: { site: string }) {
  const store = useStore();
  const [entering, setEntering] = useState<'paste' | 'analysis' | null>(null);
  const close = (): void => setEntering(null);
  return (
    <>
      <TideLevels />
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
    </>
  );
}
