/** Photographs: taking or choosing one, and saying what it shows. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { useRef, useState } from 'react';
import { Button, ColumnField, columnHelp, Field } from '../../../parts/index.ts';
import { deviceWords } from '../../../store/index.ts';
import type { Core } from '../core.ts';
import { writtenLength } from '../length.ts';
import type { PlacedPhoto } from '../photos.ts';
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
    if (!picture.type.startsWith('image/')) {
      setFault(
        `Found ${picture.type || 'a file of unknown kind'}; expected a picture. Choose a JPEG or PNG.`,
      );
      return;
    }
    setFault(null);
    onPicture(picture, core).catch((error: unknown) =>
      setFault(`Photo not saved (${deviceWords(error)}). Free up storage, then add it again.`),
    );
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

export function PhotoPanel({
  photo,
  options,
  isReadOnly,
  onEdit,
  onRemove,
}: {
  photo: PlacedPhoto;
  options: LengthOptions;
  isReadOnly: boolean;
  onEdit: (cells: Record<string, string>) => void;
  onRemove: () => void;
}) {
  const { cells } = photo.row;
  return (
    <section className="panel-part" aria-label="The chosen photograph">
      <h2>Photograph of {photo.core.name}</h2>
      {photo.picture === null ? (
        <p>This device does not have the picture {cells['file']}.</p>
      ) : (
        <img className="core-picture" src={photo.picture.url} alt={`The core of ${photo.core.name}`} />
      )}
      <div className="fields">
        {(['top', 'bottom'] as const).map((column) => (
          <LengthField
            key={column}
            name={`${column === 'top' ? 'Top' : 'Bottom'} of the picture`}
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
    </section>
  );
}
