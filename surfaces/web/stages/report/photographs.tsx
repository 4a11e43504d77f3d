/** Photographs of the campaign for its data package: which are on this device, how large they are, and the choice. */
import { megabytes, tooManyPhotographs } from '@stillstand/output/data-package';
import { useEffect, useState } from 'react';
import { counted } from '../../parts/index.ts';
import type { Store } from '../../store/index.ts';
import type { PackedFile } from './protocol.ts';

/** Bytes by path; null until the device was asked. */
type Sizes = ReadonlyMap<string, number> | null;

/** Sizes of those files that are on this device. */
export function usePhotographSizes(named: readonly string[], store: Store): Sizes {
  const [sizes, setSizes] = useState<Sizes>(null);
  useEffect(() => {
    let isCurrent = true;
    setSizes(null);
    void photographs(named, store).then((files) => {
      if (isCurrent) setSizes(sizesOf(files));
    });
    return () => {
      isCurrent = false;
    };
  }, [named, store]);
  return sizes;
}

export const sizesOf = (files: readonly PackedFile[]): NonNullable<Sizes> =>
  new Map(files.map(([path, file]) => [path, file.size]));

/** The files themselves: what a browser gives is a handle, whose bytes stay where they are until they are read. */
export async function photographs(named: readonly string[], store: Store): Promise<PackedFile[]> {
  const files: PackedFile[] = [];
  for (const path of named) {
    const file = await store.file(path).catch(() => null);
    if (file !== null) files.push([path, file]);
  }
  return files;
}

/** Why they cannot go into one package; null where they can. */
export const whyNot = (sizes: Sizes): string | null =>
  sizes === null ? null : tooManyPhotographs([...sizes.values()]);

/** Nothing to choose where the campaign names none. */
export function PhotographChoice({
  named,
  sizes,
  isIn,
  onChange,
}: {
  named: readonly string[];
  sizes: Sizes;
  isIn: boolean;
  onChange: (isIn: boolean) => void;
}) {
  if (named.length === 0 || sizes === null) return null;
  const why = whyNot(sizes);
  const bytes = [...sizes.values()].reduce((sum, size) => sum + size, 0);
  const missing = named.length - sizes.size;
  return (
    <>
      <label title="Photographs that the table photos names, in the data package with results">
        <input
          type="checkbox"
          checked={isIn && why === null}
          disabled={why !== null}
          onChange={({ target }) => onChange(target.checked)}
        />
        <span>
          With {counted(sizes.size, 'photograph')}, {megabytes(bytes)}
        </span>
      </label>
      {missing === 0 ? null : (
        <p className="quiet">
          {counted(missing, 'photograph')} named in the campaign, but not on this device.
        </p>
      )}
      {why === null ? null : (
        <p className="quiet">
          Found {why}: the package could not be opened again. Archive the photographs apart.
        </p>
      )}
    </>
  );
}
