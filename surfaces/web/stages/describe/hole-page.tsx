/**
 * One hole: its drawing at the left, what is chosen in it at the right. Past 250 lines because everything that can be
 * chosen meets its panel and its edits here.
 */
import type { HoleResult, Results } from '@stillstand/campaign/results';
import type { LengthOptions, LengthUnit, TableName } from '@stillstand/campaign/tables';
import { useEffect, useMemo, useRef, useState } from 'react';
import { Button, Mark, useWidth } from '../../parts/index.ts';
import { useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { type Core, coresOf } from './core.ts';
import { type Chosen, Drawing, type Moving } from './drawing/drawing.tsx';
import {
  addUnit,
  carryOut,
  describeLayer,
  type Edit,
  mergeLayers,
  moveContact,
  placeSample,
  relabelLayer,
  removeLayer,
  renumber,
  splitLayer,
} from './edits.ts';
import { baseOf, basesOf, type Contact, description, type Layer, layerOf } from './layers.ts';
import { useMovement, withEdits } from './moving.ts';
import { ContactPanel } from './panel/contact-panel.tsx';
import { LayerPanel } from './panel/layer-panel.tsx';
import { OverviewPanel } from './panel/overview-panel.tsx';
import { AddPhoto, PhotoPanel } from './panel/photo-panel.tsx';
import { SamplePanel } from './panel/sample-panel.tsx';
import { usePhotos } from './photos.ts';
import { moveSample, type PlacedSample, placedSamples } from './samples.ts';

/** How a table's lengths are typed: the decimal mark it writes, and the unit of bare numbers. */
function useLengths(table: TableName): LengthOptions {
  const store = useStore();
  const unit = (store.setting('length_unit') ?? '') as LengthUnit | '';
  const decimal_comma = store.document().tables.get(table)?.dialect.decimal_comma ?? false;
  return useMemo(() => ({ decimal_comma, ...(unit === '' ? {} : { unit }) }), [unit, decimal_comma]);
}

export function HolePage({
  results,
  hole,
  row,
}: {
  results: Results;
  hole: HoleResult;
  /** A row to be chosen when the page opens. */
  row: string | null;
}) {
  const store = useStore();
  const { theme } = useTheme();
  const [place, width] = useWidth(0);
  const movement = useMovement();
  const [chosen, setChosen] = useState<Chosen>(null);
  const [oneName, setOneName] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const unitOptions = useLengths('units');
  const sampleOptions = useLengths('samples');
  const photoOptions = useLengths('photos');

  const unitRows = withEdits(store.rows('units'), movement.edits);
  const sampleRows = withEdits(store.rows('samples'), movement.edits);
  const photoRows = store.rows('photos');
  const ties = store.rows('correlations');
  const determinations = store.rows('determinations');
  const cores = useMemo(
    () => coresOf(hole, [...basesOf(unitRows, hole.hole), ...basesOf(sampleRows, hole.hole)]),
    [hole, unitRows, sampleRows],
  );
  const one = cores.find((core) => core.name === oneName) ?? null;
  const d = useMemo(
    () => description(unitRows, hole.hole, cores, unitOptions),
    [unitRows, hole, cores, unitOptions],
  );
  const dated = useMemo(
    () => new Set(determinations.map((r) => r.cells['sample']?.trim() ?? '')),
    [determinations],
  );
  const samples = placedSamples(sampleRows, hole.hole, cores, sampleOptions, dated);
  const photos = usePhotos(photoRows, hole.hole, cores, photoOptions);
  const labels = d.layers.map((layer) => layer.label);
  const unit: LengthUnit = d.layers.at(-1)?.pieces.at(-1)?.unit ?? 'm';
  const bottom_m = Math.max(
    0.2,
    hole.penetration_m ?? 0,
    ...hole.units.map((u) => u.depth_bottom_m.value),
    ...hole.runs.map((r) => r.depth_bottom_m.value),
  );
  const isReadOnly = store.readOnly;

  const allContacts = [...d.contacts, ...d.ends];
  const contact = chosen?.kind === 'contact' ? (allContacts.find((c) => c.id === chosen.id) ?? null) : null;
  const layer =
    chosen?.kind === 'layer' ? (d.layers.find((l) => l.id === chosen.id) ?? layerOf(d, chosen.id)) : null;
  const sample = chosen?.kind === 'sample' ? (samples.find((s) => s.row.row_id === chosen.id) ?? null) : null;
  const photo = chosen?.kind === 'photo' ? (photos.find((p) => p.row.row_id === chosen.id) ?? null) : null;
  const unitResult = (l: Layer | null) => hole.units.find((u) => u.row_id === l?.id) ?? null;

  useChosenRow(row, d.layers, samples, setChosen);

  /** Row_ids of what was added; none where it was refused. */
  const act = (edits: readonly Edit[], words: string): string[] => {
    movement.settle();
    const added = carryOut(store, edits);
    setSaid(added === null ? '' : words);
    return added ?? [];
  };
  const onMoveContact = (c: Contact, to_m: number, how: Moving, typed?: string): void =>
    movement.move(moveContact(c, to_m, typed), how);
  const onMoveSample = (s: PlacedSample, middle_m: number, how: Moving): void =>
    movement.move(moveSample(s, middle_m), how);
  const merge = (upper: Layer | null, lower: Layer | null): void => {
    if (upper === null || lower === null || upper === lower) return;
    act(
      mergeLayers(upper, lower, hole.hole, ties),
      `Units ${upper.label} and ${lower.label} are now unit ${upper.label}. Undo parts them again.`,
    );
    setChosen({ kind: 'layer', id: lower.id });
  };
  const mergeAt = (c: Contact): void => {
    if (c.above !== null && c.below !== null) {
      merge(layerOf(d, c.above.row.row_id), layerOf(d, c.below.row.row_id));
    }
  };
  const show = (core: Core | null): void => {
    movement.settle();
    setOneName(core?.name ?? null);
    setChosen(null);
  };
  const addPicture = async (file: File, core: Core): Promise<void> => {
    const path = await store.addFile(new Uint8Array(await file.arrayBuffer()), file.type);
    const cells = { hole: hole.hole, depth_basis: core.basis, run: core.run, file: path };
    const [id] = act([{ change: 'add', table: 'photos', cells }], 'The picture is next to the core.');
    if (id !== undefined) setChosen({ kind: 'photo', id });
  };

  // Room for the drawing: what is left of the screen below the head and the tools, but never too little to draw in.
  const height = useDrawingHeight(width);
  const aboveLayer = contact?.above == null ? null : layerOf(d, contact.above.row.row_id);

  return (
    <div className="describe-hole">
      <div className="drawing-leaf">
        <CoreChoice cores={cores} one={one} onShow={show} />
        <div ref={place} className="drawing-place">
          {width === 0 ? null : (
            <Drawing
              hole={hole}
              cores={cores}
              one={one}
              bottom_m={bottom_m}
              description={d}
              samples={samples}
              photos={photos}
              chosen={chosen}
              theme={theme}
              width={width}
              height={height}
              isReadOnly={isReadOnly}
              onChoose={setChosen}
              onMoveContact={onMoveContact}
              onMoveSample={onMoveSample}
              onMerge={mergeAt}
            />
          )}
        </div>
        <p className="drawing-notes">
          Black came up, crossed was lost; ties lead to where it lay. ± is 2 sd.
          {d.contacts.length === 0 ? '' : ' Contacts are dragged, or chosen and moved with the arrows.'}
        </p>
      </div>
      <div className="describe-panel">
        <p className="describe-said" role="status">
          {said}
        </p>
        {chosen === null ? null : (
          <Button
            kind="bare"
            mark="cross"
            className="unchoose"
            aria-label="Choose nothing"
            onClick={() => setChosen(null)}
          />
        )}
        {contact !== null ? (
          <ContactPanel
            key={contact.id}
            contact={contact}
            result={
              aboveLayer !== null && baseOf(aboveLayer) === contact.above ? unitResult(aboveLayer) : null
            }
            options={unitOptions}
            isReadOnly={isReadOnly}
            isBase={aboveLayer !== null && baseOf(aboveLayer) === contact.above}
            onMove={(to, how, typed) => onMoveContact(contact, to, how, typed)}
            onKind={(contact_below) => {
              if (aboveLayer !== null) act(describeLayer(aboveLayer, { contact_below }), '');
            }}
            onMerge={() => mergeAt(contact)}
          />
        ) : layer !== null ? (
          <LayerPanel
            key={layer.id}
            layer={layer}
            below={d.layers[d.layers.indexOf(layer) + 1] ?? null}
            result={unitResult(layer)}
            options={unitOptions}
            isReadOnly={isReadOnly}
            onDescribe={(cells) => act(describeLayer(layer, cells), '')}
            onRelabel={(label) => act(relabelLayer(layer, hole.hole, label, ties), '')}
            onPiece={(piece, cells) =>
              act([{ change: 'edit', table: 'units', row_id: piece.row.row_id, cells }], '')
            }
            onSplit={(piece, at) => {
              const [upper] = act(
                splitLayer(layer, piece, at, labels, hole.hole, ties),
                'The unit is two; the lower one has its words until you change them.',
              );
              if (upper !== undefined) setChosen({ kind: 'layer', id: upper });
            }}
            onMerge={() => merge(layer, d.layers[d.layers.indexOf(layer) + 1] ?? null)}
            onRemove={() => {
              act(removeLayer(layer, hole.hole, ties), `Unit ${layer.label} deleted. Undo restores it.`);
              setChosen(null);
            }}
            onSample={(piece, at) => {
              const [id] = act(
                placeSample(hole.hole, piece.core, at, store.rows('samples'), piece.unit),
                'The sample lies in the core.',
              );
              if (id !== undefined) setChosen({ kind: 'sample', id });
            }}
          />
        ) : sample !== null ? (
          <SamplePanel
            key={sample.row.row_id}
            sample={sample}
            result={results.samples.find((s) => s.row_id === sample.row.row_id) ?? null}
            options={sampleOptions}
            isReadOnly={isReadOnly}
            kept={store.whyKept('samples', sample.row.row_id)}
            onEdit={(cells) =>
              act([{ change: 'edit', table: 'samples', row_id: sample.row.row_id, cells }], '')
            }
            onRemove={() => {
              act(
                [{ change: 'remove', table: 'samples', row_id: sample.row.row_id }],
                `Sample ${sample.label} deleted. Undo restores it.`,
              );
              setChosen(null);
            }}
          />
        ) : photo !== null ? (
          <PhotoPanel
            key={photo.row.row_id}
            photo={photo}
            options={photoOptions}
            isReadOnly={isReadOnly}
            onEdit={(cells) =>
              act([{ change: 'edit', table: 'photos', row_id: photo.row.row_id, cells }], '')
            }
            onRemove={() => {
              act(
                [{ change: 'remove', table: 'photos', row_id: photo.row.row_id }],
                'Photo unlinked. Undo restores it.',
              );
              setChosen(null);
            }}
          />
        ) : (
          <>
            <OverviewPanel
              hole={hole}
              cores={cores}
              description={d}
              one={one}
              isReadOnly={isReadOnly}
              onAdd={(gap, goesOn) => {
                const [id] = act(addUnit(hole.hole, gap, goesOn, labels, unit), '');
                if (id !== undefined) setChosen({ kind: 'layer', id: goesOn?.id ?? id });
              }}
              onCore={show}
              onRenumber={
                d.layers.some((l, i) => l.label !== String(i + 1)) && one === null
                  ? () => act(renumber(d.layers, hole.hole, ties), 'Units are numbered from the top.')
                  : null
              }
            />
            {isReadOnly ? null : <AddPhoto cores={cores} one={one} onPicture={addPicture} />}
          </>
        )}
      </div>
    </div>
  );
}

/** The whole hole, or one core of it, one after the other. */
function CoreChoice({
  cores,
  one,
  onShow,
}: {
  cores: readonly Core[];
  one: Core | null;
  onShow: (core: Core | null) => void;
}) {
  const single = cores.filter((core) => core.run !== '');
  if (single.length < 2) return null;
  const at = one === null ? -1 : single.indexOf(one);
  const before = single[at - 1];
  const after = single[at + 1];
  return (
    <fieldset className="core-choice" aria-label="What is drawn">
      <Button aria-pressed={one === null} onClick={() => onShow(null)}>
        Whole hole
      </Button>
      <Button
        aria-label="The core above"
        disabled={before === undefined}
        onClick={() => onShow(before ?? null)}
      >
        <Mark name="up" size={18} />
      </Button>
      <select
        aria-label="One core"
        title="Shows one run or push large, or the whole hole"
        value={one?.name ?? ''}
        onChange={(event) => onShow(single.find((core) => core.name === event.target.value) ?? null)}
      >
        <option value="">one core</option>
        {single.map((core) => (
          <option key={core.name}>{core.name}</option>
        ))}
      </select>
      <Button
        aria-label="The core below"
        disabled={after === undefined}
        onClick={() => onShow(after ?? null)}
      >
        <Mark name="down" size={18} />
      </Button>
    </fieldset>
  );
}

function useDrawingHeight(width: number): number {
  const [screen, setScreen] = useState(innerHeight);
  useEffect(() => {
    const measure = (): void => setScreen(innerHeight);
    addEventListener('resize', measure);
    return () => removeEventListener('resize', measure);
  }, []);
  const isPhone = width < 360;
  // Below 1,100 px the stages stand at the foot.
  const isTablet = !isPhone && innerWidth < 1100;
  return Math.max(isPhone ? 420 : 520, Math.min(1000, screen - (isPhone ? 330 : isTablet ? 276 : 216)));
}

/** A problem or a trace leads to a row: it is chosen once. */
function useChosenRow(
  row: string | null,
  layers: readonly Layer[],
  samples: readonly PlacedSample[],
  choose: (chosen: Chosen) => void,
): void {
  const done = useRef<string | null>(null);
  useEffect(() => {
    if (row === null || done.current === row) return;
    const layer = layers.find((l) => l.pieces.some((p) => p.row.row_id === row));
    const sample = samples.find((s) => s.row.row_id === row);
    if (layer === undefined && sample === undefined) return;
    done.current = row;
    choose(layer !== undefined ? { kind: 'layer', id: layer.id } : { kind: 'sample', id: row });
  });
}
