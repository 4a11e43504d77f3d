/** Taking a photograph of a core, or choosing one. */

import type { Core } from '@stillstand/campaign/chain';
import { useRef, useState } from 'react';
import { Button, Field } from '../../../parts/index.ts';
import { deviceWords } from '../../../store/index.ts';
import { pictureSize } from '../pictures.ts';
import './add-photo.css';

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
