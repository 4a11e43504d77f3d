/** A chosen unit: what it is, where it lies core by core, and parting or joining it. */
import type { UnitResult } from '@stillstand/campaign/results';
import type { LengthOptions } from '@stillstand/campaign/tables';
import { environments, fossils, sediments, structures } from '@stillstand/published/vocabularies';
import { useState } from 'react';
import { Button, ColumnField, columnHelp, Quantity } from '../../../parts/index.ts';
import { baseOf, type Layer, LEAST_M, type Piece } from '../layers.ts';
import { readLength, writtenLength } from '../length.ts';
import { ContactKind } from './contact-kind.tsx';
import { LengthField } from './length-field.tsx';
import { SedimentField } from './sediment-field.tsx';
import { WordsField } from './words-field.tsx';
import './layer-panel.css';

export function LayerPanel({
  layer,
  below,
  result,
  options,
  isReadOnly,
  onDescribe,
  onRelabel,
  onPiece,
  onSplit,
  onMerge,
  onRemove,
  onSample,
}: {
  layer: Layer;
  /** The next one down, to be merged with. */
  below: Layer | null;
  result: UnitResult | null;
  options: LengthOptions;
  isReadOnly: boolean;
  onDescribe: (cells: Record<string, string>) => void;
  onRelabel: (label: string) => void;
  onPiece: (piece: Piece, cells: Record<string, string>) => void;
  onSplit: (piece: Piece, at_m: number) => void;
  onMerge: () => void;
  onRemove: () => void;
  onSample: (piece: Piece, at_m: number) => void;
}) {
  const { cells } = layer.pieces[0]!.row;
  const cell = (column: string): string => cells[column] ?? '';
  const field = (column: string, name: string, labels?: readonly string[]) => (
    <ColumnField
      table="units"
      column={column}
      name={name}
      value={cell(column)}
      disabled={isReadOnly}
      {...(labels === undefined ? {} : { labels })}
      onCommit={(typed) => onDescribe({ [column]: typed })}
    />
  );
  return (
    <section className="panel-part" aria-label="The chosen unit">
      <h2>Unit {layer.label === '' ? 'without a number' : layer.label}</h2>
      {result === null ? null : (
        <dl className="placed">
          <div>
            <dt>in-situ depth</dt>
            <dd>
              <Quantity value={result.depth_top_m.value} sigma={result.depth_top_m.sigma} decimals={2} /> to{' '}
              <Quantity
                value={result.depth_bottom_m.value}
                sigma={result.depth_bottom_m.sigma}
                unit="m"
                decimals={2}
              />
            </dd>
          </div>
        </dl>
      )}
      <SedimentField
        value={cell('sediment')}
        disabled={isReadOnly}
        onCommit={(sediment) => onDescribe({ sediment })}
      />
      <ContactKind
        value={baseOf(layer).row.cells['contact_below'] ?? ''}
        disabled={isReadOnly}
        onChoose={(contact_below) => onDescribe({ contact_below })}
      />
      <div className="fields">
        {field(
          'secondary_sediment',
          'Second sediment',
          sediments.map((s) => s.word),
        )}
        {field('colour', 'Colour')}
        {field(
          'environment',
          'Environment',
          environments.map((e) => e.word),
        )}
        {field('organic', 'Organic matter')}
        {field('event_bed', 'Laid down at once')}
      </div>
      <WordsField
        name="Structures"
        value={cell('structures')}
        vocabulary={structures}
        disabled={isReadOnly}
        onCommit={(typed) => onDescribe({ structures: typed })}
      />
      <WordsField
        name="Fossils"
        value={cell('fossils')}
        vocabulary={fossils}
        disabled={isReadOnly}
        onCommit={(typed) => onDescribe({ fossils: typed })}
      />
      <Lengths layer={layer} options={options} isReadOnly={isReadOnly} onPiece={onPiece} />
      <Parting
        layer={layer}
        options={options}
        isReadOnly={isReadOnly}
        onSplit={onSplit}
        onSample={onSample}
      />
      <div className="fields">
        <ColumnField
          table="units"
          column="unit"
          name="Number"
          value={layer.label}
          disabled={isReadOnly}
          onCommit={onRelabel}
        />
      </div>
      {field('note', 'Words')}
      <p className="acts">
        {below === null ? null : (
          <Button disabled={isReadOnly} onClick={onMerge}>
            Merge with {below.label === '' ? 'the unit below' : `unit ${below.label} below`}
          </Button>
        )}
        <Button kind="danger" mark="remove" disabled={isReadOnly} onClick={onRemove}>
          Delete unit
        </Button>
      </p>
    </section>
  );
}

/** Top and bottom in every core it was described in. */
function Lengths({
  layer,
  options,
  isReadOnly,
  onPiece,
}: {
  layer: Layer;
  options: LengthOptions;
  isReadOnly: boolean;
  onPiece: (piece: Piece, cells: Record<string, string>) => void;
}) {
  return (
    <fieldset className="piece-lengths">
      <legend>Where it was measured</legend>
      {layer.pieces.map((piece) => (
        <div key={piece.row.row_id}>
          <span className="in-core">{piece.core.run || piece.core.name}</span>
          {(['top', 'bottom'] as const).map((column) => (
            <LengthField
              key={column}
              name={column === 'top' ? 'Top' : 'Bottom'}
              value={piece.row.cells[column] ?? ''}
              options={options}
              disabled={isReadOnly}
              help={columnHelp('units', column)}
              onCommit={(typed) => onPiece(piece, { [column]: typed })}
            />
          ))}
        </div>
      ))}
    </fieldset>
  );
}

/** A place in the unit, to split it there or to take a sample from. */
function Parting({
  layer,
  options,
  isReadOnly,
  onSplit,
  onSample,
}: {
  layer: Layer;
  options: LengthOptions;
  isReadOnly: boolean;
  onSplit: (piece: Piece, at_m: number) => void;
  onSample: (piece: Piece, at_m: number) => void;
}) {
  const [core, setCore] = useState('');
  const piece = layer.pieces.find((p) => p.core.name === core) ?? layer.pieces[0]!;
  const middle = writtenLength((piece.top_m + piece.bottom_m) / 2, piece.unit);
  const [typed, setTyped] = useState<string | null>(null);
  const at = readLength(typed ?? middle, options);
  const isInside = at !== null && at.m >= piece.top_m + LEAST_M && at.m <= piece.bottom_m - LEAST_M;
  const act = (what: (piece: Piece, at_m: number) => void): void => {
    if (at === null) return;
    what(piece, at.m);
    setTyped(null);
  };
  return (
    <div className="parting">
      {layer.pieces.length === 1 ? null : (
        <label>
          in
          <select
            title="Which of the cores that hold this unit is cut"
            value={piece.core.name}
            onChange={(event) => {
              setCore(event.target.value);
              setTyped(null);
            }}
          >
            {layer.pieces.map((p) => (
              <option key={p.row.row_id} value={p.core.name}>
                {p.core.name}
              </option>
            ))}
          </select>
        </label>
      )}
      <LengthField
        name={`At, in ${piece.core.name}`}
        value={typed ?? middle}
        options={options}
        disabled={isReadOnly}
        onCommit={setTyped}
        help={{
          about: 'Where to split the unit, or to take a sample',
          range: `${writtenLength(piece.top_m, piece.unit)} to ${writtenLength(piece.bottom_m, piece.unit)}`,
        }}
      />
      <Button disabled={isReadOnly || !isInside} onClick={() => act(onSplit)}>
        Split here
      </Button>
      <Button mark="sample" disabled={isReadOnly || at === null} onClick={() => act(onSample)}>
        Place a sample
      </Button>
    </div>
  );
}
