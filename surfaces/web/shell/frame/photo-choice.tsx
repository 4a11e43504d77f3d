/** With or without photos, and how large the copy is with either. */
import { counted, fileSize } from '../../parts/index.ts';

export function PhotoChoice({
  photos,
  rest_bytes,
  isWith,
  onChange,
}: {
  /** Bytes by path. */
  photos: ReadonlyMap<string, number> | null;
  rest_bytes: number | null;
  isWith: boolean;
  onChange: (isWith: boolean) => void;
}) {
  if (photos === null || rest_bytes === null) return null;
  const bytes = [...photos.values()].reduce((sum, size) => sum + size, 0);
  if (photos.size === 0) return <p>Size of the copy: {fileSize(rest_bytes)}.</p>;
  const choice = (value: boolean, words: string) => (
    <label title="Whether the photos on this device are in the copy">
      <input type="radio" name="photos" checked={isWith === value} onChange={() => onChange(value)} />
      <span>{words}</span>
    </label>
  );
  return (
    <fieldset className="photo-choice">
      <legend>Photos in the copy</legend>
      {choice(true, `With ${counted(photos.size, 'photo')}, ${fileSize(rest_bytes + bytes)}`)}
      {choice(false, `Without photos, ${fileSize(rest_bytes)}`)}
      {isWith ? null : (
        <p className="quiet">
          The copy lists the photos that are not in it. They stay on this device, which still needs a copy
          with photos.
        </p>
      )}
    </fieldset>
  );
}
