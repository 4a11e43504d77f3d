/** Plan: where the holes are, how they stand to the tide, what to carry, and what could hurt someone. */

import type { Problem } from '@stillstand/campaign/problems';
import { TIDE_LEVELS } from '@stillstand/campaign/tables';
import { useEffect, useRef, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, ColumnField, Field, Quantity, Table } from '../../parts/index.ts';
import { useOpenRow } from '../../shell/index.ts';
import { type Store, useStore } from '../../store/index.ts';
import type { StageProps } from '../index.ts';
import { AnalysisEntry } from './analysis-entry.tsx';
import { type Coast, readCoast } from './coast.ts';
import { ConstantsEntry } from './constants-entry.tsx';
import { BeforeTheDay, useFieldDay, WhichDay } from './day.tsx';
import { LevelsEntry } from './levels-entry.tsx';
import { CampaignMap, type MappedHole } from './map.tsx';
import { PipeToCarry } from './pipe.tsx';
import './plan.css';
import { AddRow, RowsTable } from './rows-table.tsx';
import { TideOfDay } from './tide-of-day.tsx';
import { type TideMark, TideStaff } from './tide-staff.tsx';

export function Stage({ params }: StageProps) {
  const store = useStore();
  const openRow = useOpenRow();
  const { campaign, results } = useComputation();
  const { coasts, add: addCoast, problem } = useCoasts(store);
  const [entering, setEntering] = useState<'paste' | 'analysis' | 'levels' | null>(null);
  const [adding, setAdding] = useState<Record<string, string> | null>(null);
  const site = store.rows('sites')[0]?.cells['site'] ?? '';
  const field = useFieldDay();
  const { day, days } = field;

  const holes: MappedHole[] = (campaign?.rows.holes ?? []).flatMap(
    ({ row_id, hole, state, latitude_deg, longitude_deg }) =>
      latitude_deg === null || longitude_deg === null
        ? []
        : [{ row_id, hole, state, place: { latitude_deg, longitude_deg } }],
  );
  const levels: TideMark[] = (campaign?.rows.tide_levels ?? [])
    .filter((level) => level.site === campaign?.rows.sites[0]?.site)
    .map(({ level, elevation_m, sigma_m }) => ({ name: level, elevation_m, sigma_m }))
    .sort((a, b) => TIDE_LEVELS.indexOf(a.name as never) - TIDE_LEVELS.indexOf(b.name as never));
  const grounds: TideMark[] = (results?.holes ?? []).flatMap(({ hole, ground_elevation_m: ground }) =>
    ground === null ? [] : [{ name: hole, elevation_m: ground.value, sigma_m: ground.sigma }],
  );
  const pipes = (campaign?.rows.pipes ?? []).map(({ pipe, makeup_loss_m, mass_kg_per_m }) => ({
    pipe,
    makeup_loss: makeup_loss_m === null ? '' : `${(makeup_loss_m * 100).toFixed(1)} cm`,
    mass_kg_per_m,
  }));

  return (
    <div className="plan">
      <section className="tide-day" aria-labelledby="tide-day-title">
        <header>
          <h2 id="tide-day-title">The field day and its tide</h2>
          <WhichDay {...field} />
        </header>
        {day === null ? (
          <p className="quiet">A day has its tide, its crew, permits, contacts and the hour to leave by.</p>
        ) : (
          <TideOfDay key={day.row_id} day={day} days={days} />
        )}
      </section>
      <section className="where" aria-label="Map">
        <CampaignMap
          holes={holes}
          coasts={coasts}
          chosen={params['row'] ?? null}
          onChoose={(row_id) => openRow({ table: 'holes', row_id })}
        />
        <TideStaff levels={levels} grounds={grounds} />
        {store.readOnly ? null : (
          <div className="acts">
            <Button mark="plus" onClick={() => setAdding({ state: 'planned', method: 'string', site })}>
              Plan a hole
            </Button>
            <HoleHere
              onPlace={(place) => setAdding({ state: 'planned', method: 'string', site, ...place })}
            />
            <CoastButton onFile={addCoast} />
          </div>
        )}
        {problem === null ? null : (
          <p className="says-why" role="alert">
            Found “{problem.found}”; expected {problem.expected}. {problem.mend}
          </p>
        )}
      </section>
      {day === null ? null : <BeforeTheDay key={day.row_id} day={day} />}
      <PipeToCarry key={pipes.length === 0 ? 'usual' : 'known'} pipes={pipes} />
      <References />
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
        columns={['constituent', 'gauge', 'amplitude_m', 'phase_deg', 'source']}
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
        columns={['gauge', 'site', 'datum', 'zero_m', 'sigma_m']}
        add="Add a gauge"
        prefill={site === '' ? {} : { site }}
      />
      <RowsTable
        table="benchmarks"
        caption="Bench marks"
        columns={['benchmark', 'elevation_m', 'sigma_m', 'datum', 'source']}
        add="Add a bench mark"
      />
      <RowsTable
        table="levelling"
        caption="Level book"
        columns={['point', 'loop', 'backsight_m', 'intermediate_m', 'foresight_m', 'distance_m']}
        add="Write a sight"
        foot={<p className="quiet small">Readings: amended by a later line, never changed.</p>}
      />
      <RowsTable
        table="gauge_readings"
        caption="Readings of gauges"
        columns={['time', 'gauge', 'height_m', 'flag']}
        add="Write a gauge reading"
        foot={<p className="quiet small">Readings: amended by a later line, never changed.</p>}
      />
      <RowsTable
        table="datums"
        caption="Zeros of heights"
        columns={['datum', 'kind', 'epoch_from', 'epoch_to']}
        add="Add a datum"
      />
      <RowsTable
        table="datum_shifts"
        caption="Steps between zeros"
        columns={['from', 'to', 'shift_m', 'sigma_m', 'source']}
        add="Add a step"
      />
      <RowsTable
        table="sites"
        caption="Sites"
        columns={['site', 'name', 'latitude_deg', 'longitude_deg']}
        add="Add a site"
      />
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
      />
      <Choices />
      {entering === 'paste' ? <ConstantsEntry site={site} onClose={() => setEntering(null)} /> : null}
      {entering === 'analysis' ? <AnalysisEntry onClose={() => setEntering(null)} /> : null}
      {entering === 'levels' ? (
        <LevelsEntry site={site} datum={results?.datum.label ?? ''} onClose={() => setEntering(null)} />
      ) : null}
      {adding === null ? null : (
        <AddRow table="holes" title="Plan a hole" prefill={adding} onClose={() => setAdding(null)} />
      )}
    </div>
  );
}

/** Reference and ground of every hole on the campaign's datum, each with where it comes from. */
function References() {
  const { results } = useComputation();
  const openRow = useOpenRow();
  const holes = results?.holes ?? [];
  if (holes.length === 0) return null;
  return (
    <section className="rows">
      <Table
        caption={
          <>
            References and ground <small>± is 2 sd; above {results?.datum.label || 'the datum'}</small>
          </>
        }
        columns={[
          { name: 'hole' },
          { name: 'reference', unit: 'm', number: true },
          { name: 'ground', unit: 'm', number: true },
          { name: 'along section', unit: 'm', number: true },
          { name: 'state' },
        ]}
      >
        {holes.map((hole) => (
          <tr key={hole.row_id}>
            <th scope="row">
              <button
                type="button"
                className="row-name"
                onClick={() => openRow({ table: 'holes', row_id: hole.row_id })}
              >
                {hole.hole}
              </button>
            </th>
            <td className="number">
              <Quantity
                value={hole.reference_elevation_m?.value ?? null}
                sigma={hole.reference_elevation_m?.sigma ?? null}
                sign
                decimals={2}
                id={`hole:${hole.hole}/reference`}
              />
            </td>
            <td className="number">
              <Quantity
                value={hole.ground_elevation_m?.value ?? null}
                sigma={hole.ground_elevation_m?.sigma ?? null}
                sign
                decimals={2}
                id={`hole:${hole.hole}/ground`}
              />
            </td>
            <td className="number">
              <Quantity value={hole.section_m} decimals={0} />
            </td>
            <td>{hole.state ?? ''}</td>
          </tr>
        ))}
      </Table>
    </section>
  );
}

/** Name, datum and unit of the campaign: the settings a crew makes before the first hole. */
function Choices() {
  const store = useStore();
  const datums = store.rows('datums').map((row) => row.cells['datum'] ?? '');
  return (
    <section className="rows choices">
      <h2>The campaign</h2>
      <div className="fields">
        <ColumnField
          table="settings"
          column="value"
          name="Name"
          help={{ about: 'Coast and year, as you would write it on the field book' }}
          value={store.setting('name') ?? ''}
          disabled={store.readOnly}
          onCommit={(typed) => store.setSetting('name', typed.trim())}
        />
        <ColumnField
          table="settings"
          column="value"
          name="Datum of all heights"
          help={{
            about:
              'One of the datums below; every height is brought to it. Empty: the first that is mean sea level',
          }}
          value={store.setting('datum') ?? ''}
          labels={datums}
          disabled={store.readOnly}
          onCommit={(typed) => store.setSetting('datum', typed.trim())}
        />
        <Field
          name="Lengths typed without a unit"
          help={{
            about:
              'Are taken to be in this unit. “Not taken” makes them a problem, which is safer with a mixed crew',
          }}
        >
          {(input) => (
            <select
              {...input}
              value={store.setting('length_unit') ?? ''}
              disabled={store.readOnly}
              onChange={(event) => store.setSetting('length_unit', event.target.value)}
            >
              <option value="">not taken</option>
              <option value="m">metres</option>
              <option value="cm">centimetres</option>
              <option value="ft">feet</option>
            </select>
          )}
        </Field>
        <ColumnField
          table="settings"
          column="value"
          name="Clearance margin, m"
          help={{
            about: 'Least distance of the sampler’s tip from the shoe; 0.3 where nothing is written',
            unit: 'm',
            range: '0.2 to 0.5 m, never less than 2 sd of the clearance',
            source: 'Common practice, no source',
          }}
          value={store.setting('clearance_margin_m') ?? ''}
          disabled={store.readOnly}
          onCommit={(typed) => store.setSetting('clearance_margin_m', typed.trim())}
        />
      </div>
    </section>
  );
}

/** Asks the device where it is. */
function HoleHere({
  onPlace,
}: {
  onPlace: (place: { latitude_deg: string; longitude_deg: string }) => void;
}) {
  const [state, setState] = useState<'idle' | 'asking' | string>('idle');
  if (!('geolocation' in navigator)) return null;
  const ask = (): void => {
    setState('asking');
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        setState('idle');
        onPlace({ latitude_deg: coords.latitude.toFixed(6), longitude_deg: coords.longitude.toFixed(6) });
      },
      (refusal) => setState(`This device does not tell where it is (${refusal.message}).`),
      { enableHighAccuracy: true, timeout: 30_000 },
    );
  };
  return (
    <>
      <Button mark="plus" disabled={state === 'asking'} onClick={ask}>
        {state === 'asking' ? 'Asking the device…' : 'Plan a hole here'}
      </Button>
      {state === 'idle' || state === 'asking' ? null : (
        <span className="says-why" role="status">
          {state}
        </span>
      )}
    </>
  );
}

function CoastButton({ onFile }: { onFile: (file: File) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button mark="open" onClick={() => input.current?.click()}>
        Add a coast (GeoJSON)
      </Button>
      <input
        ref={input}
        type="file"
        accept=".geojson,.json,application/geo+json"
        hidden
        aria-label="A coast as GeoJSON"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file !== undefined) onFile(file);
        }}
      />
    </>
  );
}

/** Coasts kept with the campaign, by every file that ends in .geojson. */
function useCoasts(store: Store): {
  coasts: readonly Coast[];
  add: (file: File) => void;
  problem: Problem | null;
} {
  const [coasts, setCoasts] = useState<readonly Coast[]>([]);
  const [problem, setProblem] = useState<Problem | null>(null);
  useEffect(() => {
    let isCurrent = true;
    void (async () => {
      const found: Coast[] = [];
      for (const path of await store.filePaths()) {
        if (!/\.geojson$/i.test(path)) continue;
        const text = await (await store.file(path))?.text();
        const read = text === undefined ? null : readCoast(path, text);
        if (read !== null && read.coast !== null) found.push(read.coast);
      }
      if (isCurrent) setCoasts(found);
    })();
    return () => {
      isCurrent = false;
    };
  }, [store]);
  const add = (file: File): void => {
    void (async () => {
      const read = readCoast(file.name, await file.text());
      setProblem(read.problem);
      if (read.coast === null) return;
      await store.addFile(new Uint8Array(await file.arrayBuffer()), 'application/geo+json');
      setCoasts((before) => [...before, read.coast]);
    })();
  };
  return { coasts, add, problem };
}
