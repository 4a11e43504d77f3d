/** Photographs: taking or choosing one, and saying what it shows. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { useRef, useState } from 'react';
import { Button, ColumnField, columnHelp, Field } from '../../../parts/index.ts';
import { deviceWords } from '../../../store/index.ts';
import type { Core } from '../core.ts';
import { writtenLength } from '../length.ts';
import { hasMarking, type Marking } from '../marking/marking.ts';
import { MarkingDialog } from '../marking/marking-dialog.tsx';
import { StripFacts } from '../marking/strip-facts.tsx';
import type { PlacedPhoto } from '../photos.ts';
import { isPicture, pictureSize } from '../pictures.ts';
import { LengthField } from './length-field.tsx';
import './photo-panel.css';

/** Buttons that bring a picture of a core: from the camera, or from a file. */
export function AddPhoto({
  cores,
  one,
  onPicture,
}: {
  cores: readonly Core[];
  /** The core in view. */
  one: Core | null;
  onPicture: (file: File, core: Core) => Promise<void>;
}) {
  const camera = useRef<HTMLInputElement>(null);
  const file = useRef<HTMLInputElement>(null);
  const [name, setName] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const core = one ?? cores.find((c) => c.name === name) ?? cores[0];
  const take = (input: HTMLInputElement): void => {
    const [picture] = input.files ?? [];
    input.value = '';
    if (picture === undefined || core === undefined) return;
    setFault(null);
    void pictureFault(picture).then((found) => {
      if (found !== null) setFault(found);
      else {
        onPicture(picture, core).catch((error: unknown) =>
          setFault(`Photo not saved (${deviceWords(error)}). Free up storage, then add it again.`),
        );
      }
    });
  };
  return (
    <div className="add-photo">
      {one !== null || cores.length < 2 ? null : (
        <Field
          name="Photograph of"
          help={{ about: 'Which core the picture shows, from its top to its bottom' }}
        >
          {(input) => (
            <select {...input} value={core?.name ?? ''} onChange={(event) => setName(event.target.value)}>
              {cores.map((c) => (
                <option key={c.name}>{c.name}</option>
              ))}
            </select>
          )}
        </Field>
      )}
      <Button mark="photo" onClick={() => camera.current?.click()}>
        Take a photo
      </Button>
      <Button onClick={() => file.current?.click()}>Choose a picture</Button>
      <input
        ref={camera}
        type="file"
        accept="image/*"
        capture="environment"
        hidden
        onChange={(event) => take(event.target)}
      />
      <input ref={file} type="file" accept="image/*" hidden onChange={(event) => take(event.target)} />
      {fault === null ? null : (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
    </div>
  );
}

/** Why a file is no picture to be used, and what to do; null where it is one. */
async function pictureFault(file: File): Promise<string | null> {
  if (/^image\/hei[cf]/.test(file.type) || /\.hei[cf]$/i.test(file.name)) {
    return 'Found a HEIC picture, which few devices and no figure can show; expected JPEG or PNG. Convert it, or set the camera to JPEG and take it again.';
  }
  const found = file.type || 'a file of unknown kind';
  if (!file.type.startsWith('image/')) {
    return `Found ${found}; expected a picture. Choose a JPEG or PNG.`;
  }
  return await pictureSize(file).then(
    () => null,
    () =>
      `Found ${found} that this device cannot show; expected a JPEG or PNG. Convert it, then choose it again.`,
  );
}

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
