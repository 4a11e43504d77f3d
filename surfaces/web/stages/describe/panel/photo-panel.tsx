/** A chosen photograph: its scale, and what of the core it shows. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, ColumnField, columnHelp } from '../../../parts/index.ts';
import { writtenLength } from '../length.ts';
import { hasMarking, type Marking } from '../marking/marking.ts';
import { MarkingDialog } from '../marking/marking-dialog.tsx';
import { StripFacts } from '../marking/strip-facts.tsx';
import type { PlacedPhoto } from '../photos.ts';
import { isPicture } from '../pictures.ts';
import { LengthField } from './length-field.tsx';
import './photo-panel.css';

export function PhotoPanel({
  photo,
  options,
  usualWidth,
  isReadOnly,
  onEdit,
  onScale,
  onRemove,
}: {
  photo: PlacedPhoto;
  options: LengthOptions;
  /** Width of the core before it is measured, as it would be typed. */
  usualWidth: string;
  isReadOnly: boolean;
  onEdit: (cells: Record<string, string>) => void;
  /** Null takes the scale away. */
  onScale: (marking: Marking | null) => void;
  onRemove: () => void;
}) {
  const { cells } = photo.row;
  const [isMarking, setMarking] = useState(false);
  return (
    <section className="panel-part" aria-label="The chosen photograph">
      <h2>Photograph of {photo.core.name}</h2>
      {isPicture(photo.picture) ? (
        <img className="core-picture" src={photo.picture.url} alt={`The core of ${photo.core.name}`} />
      ) : (
        <p>{withoutPicture(photo.picture, cells['file'] ?? '')}</p>
      )}
      <PhotoScale
        photo={photo}
        isReadOnly={isReadOnly}
        onSet={() => setMarking(true)}
        onRemove={() => onScale(null)}
      />
      <div className="fields">
        {(['top', 'bottom'] as const).map((column) => (
          <LengthField
            key={column}
            name={`${column === 'top' ? 'Top' : 'Bottom'} of ${photo.strip === null ? 'the picture' : 'the strip'}`}
            value={cells[column] || writtenLength(column === 'top' ? photo.top_m : photo.bottom_m, 'm')}
            options={options}
            disabled={isReadOnly}
            help={columnHelp('photos', column)}
            onCommit={(typed) => onEdit({ [column]: typed })}
          />
        ))}
      </div>
      <ColumnField
        table="photos"
        column="note"
        value={cells['note'] ?? ''}
        disabled={isReadOnly}
        onCommit={(note) => onEdit({ note })}
      />
      <p className="acts">
        <Button kind="danger" mark="remove" disabled={isReadOnly} onClick={onRemove}>
          Unlink photo
        </Button>
        <span className="quiet">The picture itself stays in the campaign.</span>
      </p>
      {isMarking ? (
        <MarkingDialog
          photo={photo}
          options={options}
          usualWidth={usualWidth}
          onKeep={(marking) => {
            setMarking(false);
            onScale(marking);
          }}
          onClose={() => setMarking(false)}
        />
      ) : null}
    </section>
  );
}

function withoutPicture(state: 'reading' | 'missing' | 'unreadable', file: string): string {
  switch (state) {
    case 'reading':
      return 'Opening the picture…';
    case 'missing':
      return file === ''
        ? 'No picture is named: add one, and unlink this.'
        : `This device does not have the picture ${file}.`;
    case 'unreadable':
      return `This device cannot show the picture ${file}. Convert it to JPEG, then add it again.`;
  }
}

/** Whether the picture has a scale, and the way to one. */
function PhotoScale({
  photo,
  isReadOnly,
  onSet,
  onRemove,
}: {
  photo: PlacedPhoto;
  isReadOnly: boolean;
  onSet: () => void;
  onRemove: () => void;
}) {
  const { strip, picture } = photo;
  const isMarked = hasMarking(photo.row.cells);
  return (
    <>
      {strip === null ? (
        <p>
          {isMarked
            ? 'The scale is not complete: the whole picture is drawn.'
            : 'No scale: the whole picture is drawn. With two marks of known depth the core is cut out and straightened.'}
        </p>
      ) : (
        <StripFacts strip={strip} size={isPicture(picture) ? picture : null} />
      )}
      <p className="acts">
        <Button disabled={isReadOnly || !isPicture(picture)} onClick={onSet}>
          {isMarked ? 'Change scale' : 'Set scale'}
        </Button>
        {isMarked ? (
          <Button mark="remove" disabled={isReadOnly} onClick={onRemove}>
            Remove scale
          </Button>
        ) : null}
        {isMarked && !isPicture(picture) && picture !== 'reading' ? (
          <span className="quiet">The marks are kept.</span>
        ) : null}
      </p>
    </>
  );
}
