/** At the right of the drawing: what is chosen meets its panel and its edits; with nothing chosen, the overview. */

import type { Core } from '@stillstand/campaign/chain';
import type { Results } from '@stillstand/campaign/results';
import type { LengthUnit } from '@stillstand/campaign/tables';
import { useStore } from '../../../store/index.ts';
import type { Changes } from '../changes.ts';
import type { Found } from '../chosen.ts';
import type { Described } from '../described.ts';
import type { Chosen } from '../drawing/drawing.tsx';
import {
  addUnit,
  describeLayer,
  placeSample,
  relabelLayer,
  removeLayer,
  renumber,
  splitLayer,
} from '../edits.ts';
import { baseOf, type Contact, type Layer, layerOf } from '../layers.ts';
import { coreWidth } from '../marking/core-width.ts';
import { markingCells } from '../marking/marking.ts';
import type { PlacedPhoto } from '../photos.ts';
import { relabelPlanned } from '../plan-samples/planning.ts';
import { SamplingPlan } from '../plan-samples/sampling-plan.tsx';
import type { PlacedSample } from '../samples.ts';
import { AddPhoto } from './add-photo.tsx';
import { ContactPanel } from './contact-panel.tsx';
import { LayerPanel } from './layer-panel.tsx';
import { OverviewPanel } from './overview-panel.tsx';
import { PhotoPanel } from './photo-panel.tsx';
import { SamplePanel } from './sample-panel.tsx';
import './chosen-panel.css';

interface PanelProps {
  results: Results;
  described: Described;
  changes: Changes;
  onChoose: (chosen: Chosen) => void;
}

export function ChosenPanel({
  found,
  one,
  onCore,
  ...props
}: PanelProps & { found: Found | null; one: Core | null; onCore: (core: Core) => void }) {
  switch (found?.kind) {
    case 'contact':
      return <OfContact key={found.contact.id} contact={found.contact} {...props} />;
    case 'layer':
      return <OfLayer key={found.layer.id} layer={found.layer} {...props} />;
    case 'sample':
      return <OfSample key={found.sample.row.row_id} sample={found.sample} {...props} />;
    case 'photo':
      return <OfPhoto key={found.photo.row.row_id} photo={found.photo} {...props} />;
  }
  return <Overview {...{ one, onCore }} {...props} />;
}

const resultOf = ({ hole }: Described, layer: Layer | null) =>
  hole.units.find((u) => u.row_id === layer?.id) ?? null;

function OfContact({ contact, described, changes }: PanelProps & { contact: Contact }) {
  const store = useStore();
  const above = contact.above === null ? null : layerOf(described.description, contact.above.row.row_id);
  const isBase = above !== null && baseOf(above) === contact.above;
  return (
    <ContactPanel
      contact={contact}
      result={isBase ? resultOf(described, above) : null}
      options={described.options.units}
      isReadOnly={store.readOnly}
      isBase={isBase}
      onMove={(to, how, typed) => changes.moveContact(contact, to, how, typed)}
      onKind={(contact_below) => {
        if (above !== null) changes.act(describeLayer(above, { contact_below }), '');
      }}
      onMerge={() => changes.mergeAt(contact)}
    />
  );
}

function OfLayer({ layer, described, changes: { act, merge }, onChoose }: PanelProps & { layer: Layer }) {
  const store = useStore();
  const { description: d, options } = described;
  const { hole } = described.hole;
  const ties = store.rows('correlations');
  const below = d.layers[d.layers.indexOf(layer) + 1] ?? null;
  return (
    <LayerPanel
      layer={layer}
      below={below}
      result={resultOf(described, layer)}
      options={options.units}
      isReadOnly={store.readOnly}
      onDescribe={(cells) => act(describeLayer(layer, cells), '')}
      onRelabel={(label) => act(relabelLayer(layer, hole, label, ties), '')}
      onPiece={(piece, cells) =>
        act([{ change: 'edit', table: 'units', row_id: piece.row.row_id, cells }], '')
      }
      onSplit={(piece, at) => {
        const [upper] = act(
          splitLayer(layer, piece, at, labelsOf(described), hole, ties),
          'The unit is two; the lower one has its words until you change them.',
        );
        if (upper !== undefined) onChoose({ kind: 'layer', id: upper });
      }}
      onMerge={() => merge(layer, below)}
      onRemove={() => {
        act(removeLayer(layer, hole, ties), `Unit ${layer.label} deleted. Undo restores it.`);
        onChoose(null);
      }}
      onSample={(piece, at) => {
        const [id] = act(
          placeSample(
            hole,
            piece.core,
            at,
            [...store.rows('samples'), ...store.rows('planned_samples')],
            piece.unit,
          ),
          'The sample lies in the core.',
        );
        if (id !== undefined) onChoose({ kind: 'sample', id });
      }}
    />
  );
}

const labelsOf = ({ description }: Described): string[] => description.layers.map((layer) => layer.label);

function OfSample({
  sample,
  results,
  described,
  changes: { act },
  onChoose,
}: PanelProps & { sample: PlacedSample }) {
  const store = useStore();
  const { row_id } = sample.row;
  return (
    <SamplePanel
      sample={sample}
      result={results.samples.find((s) => s.row_id === row_id) ?? null}
      values={results.measurements.filter((measured) => measured.sample === sample.label)}
      options={described.options.samples}
      isReadOnly={store.readOnly}
      kept={store.whyKept('samples', row_id)}
      onEdit={(cells) =>
        act(
          [
            { change: 'edit', table: 'samples', row_id, cells },
            ...relabelPlanned(store.rows('planned_samples'), sample.label, cells),
          ],
          '',
        )
      }
      onRemove={() => {
        act(
          [{ change: 'remove', table: 'samples', row_id }],
          `Sample ${sample.label} deleted. Undo restores it.`,
        );
        onChoose(null);
      }}
    />
  );
}

function OfPhoto({ photo, described, changes: { act }, onChoose }: PanelProps & { photo: PlacedPhoto }) {
  const store = useStore();
  const { row_id } = photo.row;
  return (
    <PhotoPanel
      photo={photo}
      options={described.options.photos}
      isReadOnly={store.readOnly}
      usualWidth={coreWidth(store, described.hole.hole, photo.core, described.options.photos)}
      onEdit={(cells) => act([{ change: 'edit', table: 'photos', row_id, cells }], '')}
      onScale={(marking) =>
        act(
          [{ change: 'edit', table: 'photos', row_id, cells: markingCells(marking) }],
          marking === null ? 'Scale removed. Undo restores it.' : 'Scale kept. Undo takes it back.',
        )
      }
      onRemove={() => {
        act([{ change: 'remove', table: 'photos', row_id }], 'Photo unlinked. Undo restores it.');
        onChoose(null);
      }}
    />
  );
}

function Overview({
  one,
  described,
  changes,
  onChoose,
  onCore,
}: PanelProps & { one: Core | null; onCore: (core: Core) => void }) {
  const store = useStore();
  const { act } = changes;
  const { hole, cores, description: d } = described;
  const unit: LengthUnit = d.layers.at(-1)?.pieces.at(-1)?.unit ?? 'm';
  const addPicture = async (file: File, core: Core): Promise<void> => {
    const path = await store.addFile(new Uint8Array(await file.arrayBuffer()), file.type);
    const cells = { hole: hole.hole, depth_basis: core.basis, run: core.run, file: path };
    const [id] = act([{ change: 'add', table: 'photos', cells }], 'The picture is next to the core.');
    if (id !== undefined) onChoose({ kind: 'photo', id });
  };
  return (
    <>
      <OverviewPanel
        hole={hole}
        cores={cores}
        description={d}
        one={one}
        isReadOnly={store.readOnly}
        onAdd={(gap, goesOn) => {
          const [id] = act(addUnit(hole.hole, gap, goesOn, labelsOf(described), unit), '');
          if (id !== undefined) onChoose({ kind: 'layer', id: goesOn?.id ?? id });
        }}
        onCore={onCore}
        onRenumber={
          d.layers.some((l, i) => l.label !== String(i + 1)) && one === null
            ? () =>
                act(
                  renumber(d.layers, hole.hole, store.rows('correlations')),
                  'Units are numbered from the top.',
                )
            : null
        }
      />
      {one === null ? <SamplingPlan {...{ described, changes, onChoose }} /> : null}
      {store.readOnly ? null : <AddPhoto cores={cores} one={one} onPicture={addPicture} />}
    </>
  );
}
