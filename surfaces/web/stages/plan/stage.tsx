/** Plan: where the holes are, how they stand to the tide, what to carry, and what could hurt someone. */

import './plan.css';
import { plannedDepths, samplerInventory } from '@stillstand/campaign/holes';
import { TIDE_LEVELS } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { CallInPlate, DayPage } from '../../holes/index.ts';
import { ImportPage } from '../../import/index.ts';
import { Button } from '../../parts/index.ts';
import { type StageProps, useNavigate, useOpenRow } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { Choices } from './choices.tsx';
import { BeforeTheDay, Dangers, useFieldDay, WhichDay } from './day/day.tsx';
import { TideOfDay } from './day/tide-of-day.tsx';
import { PipeToCarry } from './gear/pipe.tsx';
import { SamplersAway } from './gear/samplers-away.tsx';
import { PipeStock } from './gear/stock.tsx';
import { LevelBook } from './heights/level-book.tsx';
import { References } from './heights/references.tsx';
import { type TideMark, TideStaff } from './heights/tide-staff.tsx';
import { unrelatedDatums } from './heights/unrelated-datums.ts';
import { type MappedHole, type MappedSite, PlanMap } from './map/map.tsx';
import { CoastButton, HoleHere, useMapShapes } from './map/map-tools.tsx';
import { PlaceList } from './places/index.ts';
import { AddRow, RowsTable } from './rows-table.tsx';
import { AnalysisEntry } from './tide/analysis-entry.tsx';
import { ConstantsEntry } from './tide/constants-entry.tsx';
import { LevelsEntry } from './tide/levels-entry.tsx';

/** What planning a hole needs; the rest is told as it is drilled. */
const ASKED_OF_A_HOLE = [
  'hole',
  'site',
  'latitude_deg',
  'position_accuracy_m',
  'target_depth',
  'method',
  'reference_elevation_m',
  'reference_datum',
  'pipe',
] as const;

export function Stage({ params }: StageProps) {
  const store = useStore();
  const openRow = useOpenRow();
  const navigate = useNavigate();
  const { campaign, results } = useComputation();
  const { shapes, add: addCoast, problem } = useMapShapes(store);
  const [entering, setEntering] = useState<'paste' | 'analysis' | 'levels' | null>(null);
  const [adding, setAdding] = useState<Record<string, string> | null>(null);
  const [relating, setRelating] = useState<Record<string, string> | null>(null);
  const zero = results?.datum.label ?? '';
  const site = store.rows('sites')[0]?.cells['site'] ?? '';
  const field = useFieldDay();
  const [hole, chooseHole] = useState<string | null>(null);
  const { day, days } = field;
  const [isEnding, setEnding] = useState(false);

  const holes: MappedHole[] = (campaign?.rows.holes ?? []).flatMap(
    ({ row_id, hole, state, latitude_deg, longitude_deg }) =>
      latitude_deg === null || longitude_deg === null
        ? []
        : [{ row_id, hole, state, place: { latitude_deg, longitude_deg } }],
  );
  const sites: MappedSite[] = (campaign?.rows.sites ?? []).flatMap(
    ({ row_id, site, latitude_deg, longitude_deg }) =>
      latitude_deg === null || longitude_deg === null
        ? []
        : [{ row_id, site, place: { latitude_deg, longitude_deg } }],
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

  if (params['view'] === 'import') return <ImportPage onDone={() => navigate('Plan')} />;
  if (isEnding && day !== null)
    return <DayPage store={store} date={day.cells['date']?.trim() ?? ''} onClose={() => setEnding(false)} />;
  return (
    <div className="plan">
      <CallInPlate store={store} />
      <Dangers field={field} onHole={chooseHole} />
      <section className="tide-day" aria-labelledby="tide-day-title">
        <header>
          <h2 id="tide-day-title">Field day and tide</h2>
          <WhichDay {...field} />
        </header>
        {day === null ? (
          <p className="quiet">A day has its tide, its crew, permits, contacts and the hour to leave by.</p>
        ) : (
          <>
            <TideOfDay key={day.row_id} day={day} days={days} />
            <Button onClick={() => setEnding(true)}>Show the day sheet</Button>
          </>
        )}
      </section>
      <section className="where" aria-label="Map">
        <PlanMap
          holes={holes}
          sites={sites}
          shapes={shapes}
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
            <PlaceList site={site} />
            <CoastButton onFile={addCoast} />
            <Button mark="open" onClick={() => navigate('Plan', { view: 'import' })}>
              Import a table
            </Button>
          </div>
        )}
        {results === null
          ? null
          : unrelatedDatums(store.rows, store.setting('datum')?.trim() ?? '').map((label) => (
              <div key={label} className="acts" role="status">
                <p className="says-why">
                  {label} is new: added to Zeros of heights;{' '}
                  {label === zero
                    ? 'all heights stand on it until another is chosen under The campaign.'
                    : `say how it relates to ${zero}.`}
                </p>
                {store.readOnly || label === zero ? null : (
                  <Button onClick={() => setRelating({ from: label, to: zero })}>
                    Say how {label} relates
                  </Button>
                )}
              </div>
            ))}
        {problem === null ? null : (
          <p className="says-why" role="alert">
            Found “{problem.found}”; expected {problem.expected}. {problem.fix}
          </p>
        )}
      </section>
      {day === null ? null : <BeforeTheDay key={day.row_id} day={day} chosen={hole} onHole={chooseHole} />}
      <PipeToCarry pipes={pipes} targets={plannedDepths(campaign?.rows.holes ?? [])} />
      <LevelBook />
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
        table="tide_ranges"
        caption="Tidal range through time"
        columns={['age_cal_bp', 'factor', 'factor_sigma', 'site', 'source']}
        add="Add a tidal range"
        foot={
          <p className="quiet small">
            Tidal range then ÷ today, by a palaeotidal model. Straight between rows; one error for all rows.
          </p>
        }
      />
      <RowsTable
        table="gauge_means"
        caption="Annual means of gauges"
        columns={['year', 'gauge', 'level_m', 'sigma_m', 'months', 'flag', 'source']}
        add="Add an annual mean"
        fold={10}
        foot={
          <p className="quiet small">
            They join the curve of the gauge’s site. Metres above the zero of the gauge; without an elevation
            of that zero they inform the rate alone.
          </p>
        }
      />
      <RowsTable
        table="calibration_curves"
        caption="Calibration curves of your own"
        columns={['age_cal_bp', 'curve', 'c14_age', 'c14_error', 'reservoir', 'source']}
        add="Add a row"
        fold={10}
        foot={
          <p className="quiet small">
            A date names one by its name, as it names a published curve. Straight between rows; import a whole
            curve with Import a table.
          </p>
        }
      />
      <RowsTable
        table="gauges"
        caption="Gauges"
        columns={['gauge', 'site', 'datum', 'zero_elevation_m', 'sigma_m']}
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
        table="gauge_readings"
        caption="Readings of gauges"
        columns={['time', 'gauge', 'height_m', 'flag']}
        add="Write a gauge reading"
        foot={<p className="quiet small">Readings: amended by a later entry, never changed.</p>}
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
        columns={['site', 'name', 'latitude_deg', 'longitude_deg', 'position_as_written']}
        add="Add a site"
      />
      <RowsTable
        table="pipes"
        caption="Pipe"
        columns={['pipe', 'outside_diameter_mm', 'wall_mm', 'mass_kg_per_m', 'makeup_loss']}
        add="Add a kind of pipe"
      />
      <PipeStock />
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
      <Choices />
      {entering === 'paste' ? <ConstantsEntry site={site} onClose={() => setEntering(null)} /> : null}
      {entering === 'analysis' ? <AnalysisEntry onClose={() => setEntering(null)} /> : null}
      {entering === 'levels' ? (
        <LevelsEntry site={site} datum={results?.datum.label ?? ''} onClose={() => setEntering(null)} />
      ) : null}
      {adding === null ? null : (
        <AddRow
          table="holes"
          title="Plan a hole"
          prefill={adding}
          first={ASKED_OF_A_HOLE}
          more="More about the hole"
          onClose={() => setAdding(null)}
        />
      )}
      {relating === null ? null : (
        <AddRow
          table="datum_shifts"
          title="Add a step"
          prefill={relating}
          onClose={() => setRelating(null)}
        />
      )}
    </div>
  );
}
