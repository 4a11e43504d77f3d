/** Nothing chosen: what is described, what is not, and where to begin. */

import type { Core } from '@stillstand/campaign/chain';
import type { HoleResult } from '@stillstand/campaign/results';
import { LivingGround } from '../../../holes/index.ts';
import { Button, counted, Mark, printed, Table } from '../../../parts/index.ts';
import { useNavigate, useOpenRow } from '../../../shell/index.ts';
import type { Description, Gap, Layer } from '../layers.ts';
import { writtenLength } from '../length.ts';
import './overview-panel.css';

export function OverviewPanel({
  hole,
  cores,
  description,
  one,
  isReadOnly,
  onAdd,
  onCore,
  onRenumber,
}: {
  hole: HoleResult;
  cores: readonly Core[];
  description: Description;
  one: Core | null;
  isReadOnly: boolean;
  /** A unit over the gap: a new one, or the one above going on. */
  onAdd: (gap: Gap, goesOn: Layer | null) => void;
  onCore: (core: Core) => void;
  onRenumber: (() => void) | null;
}) {
  const openRow = useOpenRow();
  const navigate = useNavigate();
  const gaps = description.gaps.filter((gap) => one === null || gap.core === one);
  const above = (gap: Gap): Layer | null =>
    description.layers.findLast((layer) => {
      const base = layer.pieces.at(-1)!;
      return base.core.depthAt(base.bottom_m) <= gap.core.depthAt(gap.from_m) + 0.002;
    }) ?? null;
  const described = (core: Core): number =>
    core.length_m -
    core.fall_in_m -
    description.gaps.filter((g) => g.core === core).reduce((sum, g) => sum + g.to_m - g.from_m, 0);
  return (
    <section className="panel-part" aria-label="What is described">
      <h2>
        {counted(
          description.layers.filter((l) => one === null || l.pieces.some((p) => p.core === one)).length,
          'unit',
        )}{' '}
        described in {one === null ? `hole ${hole.hole}` : one.name}
      </h2>
      {gaps.length === 0 ? (
        <p className="quiet">
          <Mark name="tick" size={18} /> All that came up is described. Choose a unit or a contact in the
          drawing.
        </p>
      ) : (
        <ul className="gaps">
          {gaps.map((gap) => {
            const layer = above(gap);
            return (
              <li key={`${gap.core.name} ${gap.from_m}`}>
                <p>
                  <b>Not described</b> {gap.core.name}, {writtenLength(gap.from_m, 'm').replace(' m', '')} to{' '}
                  {writtenLength(gap.to_m, 'm')}
                </p>
                <p className="acts">
                  <Button mark="plus" disabled={isReadOnly} onClick={() => onAdd(gap, null)}>
                    Add a unit
                  </Button>
                  {layer === null || layer.label === '' ? null : (
                    <Button disabled={isReadOnly} onClick={() => onAdd(gap, layer)}>
                      Unit {layer.label} goes on
                    </Button>
                  )}
                </p>
              </li>
            );
          })}
        </ul>
      )}
      {description.unplaced.length === 0 ? null : (
        <ul className="gaps">
          {description.unplaced.map((row) => (
            <li key={row.row_id}>
              <button
                type="button"
                className="as-line"
                onClick={() => openRow({ table: 'units', row_id: row.row_id })}
              >
                <Mark name="close" size={18} /> Unit {row.cells['unit'] || 'without a number'} has no place:
                found {row.cells['top'] || 'no top'} to {row.cells['bottom'] || 'no bottom'} in{' '}
                {row.cells['run'] || row.cells['depth_basis'] || 'nothing'}. Open it to correct it.
              </button>
            </li>
          ))}
        </ul>
      )}
      {one === null && cores.some((core) => core.run !== '') ? (
        <Table
          caption={hole.runs.every((run) => run.method === 'push') ? 'Pushes' : 'Runs'}
          columns={[
            { name: 'core' },
            { name: 'came up', unit: 'm', number: true },
            { name: 'described', unit: 'm', number: true },
            { name: 'in-situ depth', unit: 'm', number: true },
          ]}
        >
          {cores
            .filter((core) => core.run !== '')
            .map((core) => (
              <tr key={core.name}>
                <th scope="row">
                  <button type="button" className="as-line" onClick={() => onCore(core)}>
                    {core.run}
                  </button>
                </th>
                <td className="number">{printed(core.length_m, 2)}</td>
                <td className="number">
                  {described(core) < core.length_m - core.fall_in_m - 0.005 ? (
                    <Mark name="close" size={15} label="not all described" />
                  ) : null}{' '}
                  {printed(described(core), 2)}
                </td>
                <td className="number">
                  {printed(core.depth.top_m, 2)}–{printed(core.depth.bottom_m, 2)}
                </td>
              </tr>
            ))}
        </Table>
      ) : null}
      {onRenumber === null ? null : (
        <p className="acts">
          <Button disabled={isReadOnly} onClick={onRenumber}>
            Number the units from the top
          </Button>
          <span className="quiet">Correlations between holes follow.</span>
        </p>
      )}
      <p className="acts">
        <Button
          mark="on"
          onClick={() =>
            navigate('Describe', {
              view: 'chain',
              hole: hole.hole,
              ...(one === null || one.run === '' ? {} : { run: one.run }),
            })
          }
        >
          {one === null || one.run === '' ? 'Show samples and cores' : 'Open chain'}
        </Button>
        {one === null ? (
          <Button
            mark="photo"
            onClick={() => navigate('Describe', { view: 'chain', hole: hole.hole, scan: 'yes' })}
          >
            Scan a label
          </Button>
        ) : null}
        <span className="quiet">Where each is, what was sent, lent or discarded.</span>
      </p>
      {one !== null ? null : (
        <p className="acts">
          <Button mark="sample" onClick={() => navigate('Describe', { view: 'labels', hole: hole.hole })}>
            Print labels
          </Button>
          <span className="quiet">For samples and cores, each with a code for a camera.</span>
        </p>
      )}
      {one !== null ? null : (
        <p className="acts">
          <Button onClick={() => navigate('Describe', { view: 'submission', hole: hole.hole })}>
            Make submission sheet
          </Button>
          <Button onClick={() => navigate('Describe', { view: 'archive', hole: hole.hole })}>
            Show archive list
          </Button>
          <span className="quiet">Parcels to laboratories; where everything is, and what is on loan.</span>
        </p>
      )}
      {one === null ? <LivingGround hole={hole.hole} /> : null}
      {isReadOnly || one !== null ? null : (
        <p className="acts">
          <Button mark="open" onClick={() => navigate('Describe', { view: 'import' })}>
            Import a table
          </Button>
          <span className="quiet">Layers, samples or measurements that you have already.</span>
        </p>
      )}
    </section>
  );
}
