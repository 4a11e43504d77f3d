/** Where the holes are: the map, the levels of the tide and the ground, and new holes. */
import { TIDE_LEVELS } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button } from '../../../parts/index.ts';
import { useNavigate, useOpenRow } from '../../../shell/index.ts';
import { useStore } from '../../../store/index.ts';
import { AddRow } from '../add-row.tsx';
import { type TideMark, TideStaff } from '../heights/tide-staff.tsx';
import { unrelatedDatums } from '../heights/unrelated-datums.ts';
import { PlaceList } from '../places/index.ts';
import { type MappedHole, type MappedSite, PlanMap } from './map.tsx';
import { CoastButton, HoleHere, useMapShapes } from './map-tools.tsx';

export function Where({
  chosen,
  onPlanHole,
}: {
  /** Row of the hole that is marked on the map. */
  chosen: string | null;
  /** Asks for a new hole, with what is known of it. */
  onPlanHole: (place: Readonly<Record<string, string>>) => void;
}) {
  const store = useStore();
  const openRow = useOpenRow();
  const navigate = useNavigate();
  const { campaign, results } = useComputation();
  const { shapes, add: addCoast, problem } = useMapShapes(store);
  const [relating, setRelating] = useState<Record<string, string> | null>(null);
  const zero = results?.datum.label ?? '';
  const site = store.rows('sites')[0]?.cells['site'] ?? '';

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

  return (
    <section className="where" aria-label="Map">
      <PlanMap
        holes={holes}
        sites={sites}
        shapes={shapes}
        chosen={chosen}
        onChoose={(row_id) => openRow({ table: 'holes', row_id })}
      />
      <TideStaff levels={levels} grounds={grounds} />
      {store.readOnly ? null : (
        <div className="acts">
          <Button mark="plus" onClick={() => onPlanHole({})}>
            Plan a hole
          </Button>
          <HoleHere onPlace={onPlanHole} />
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
                  ? 'all heights refer to it until another is chosen under The campaign.'
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
      {relating === null ? null : (
        <AddRow
          table="datum_shifts"
          title="Add a step"
          prefill={relating}
          onClose={() => setRelating(null)}
        />
      )}
    </section>
  );
}
