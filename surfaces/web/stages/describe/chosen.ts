/** What is chosen in the drawing of a hole, found among what is described. */
import { useEffect, useRef } from 'react';
import type { Described } from './described.ts';
import type { Chosen } from './drawing/drawing.tsx';
import { type Contact, type Layer, layerOf } from './layers.ts';
import type { PlacedPhoto } from './photos.ts';
import type { PlacedSample } from './samples.ts';

export type Found =
  | { kind: 'contact'; contact: Contact }
  | { kind: 'layer'; layer: Layer }
  | { kind: 'sample'; sample: PlacedSample }
  | { kind: 'photo'; photo: PlacedPhoto };

/** Null where nothing is chosen, or what was chosen is gone. */
export function foundOf(chosen: Chosen, { description: d, samples, photos }: Described): Found | null {
  switch (chosen?.kind) {
    case 'contact': {
      const contact = [...d.contacts, ...d.ends].find((c) => c.id === chosen.id);
      return contact === undefined ? null : { kind: 'contact', contact };
    }
    case 'layer': {
      const layer = d.layers.find((l) => l.id === chosen.id) ?? layerOf(d, chosen.id);
      return layer === null ? null : { kind: 'layer', layer };
    }
    case 'sample': {
      const sample = samples.find((s) => s.row.row_id === chosen.id);
      return sample === undefined ? null : { kind: 'sample', sample };
    }
    case 'photo': {
      const photo = photos.find((p) => p.row.row_id === chosen.id);
      return photo === undefined ? null : { kind: 'photo', photo };
    }
  }
  return null;
}

/** A problem or a trace leads to a row: it is chosen once. */
export function useChosenRow(
  row: string | null,
  layers: readonly Layer[],
  samples: readonly PlacedSample[],
  photos: readonly PlacedPhoto[],
  choose: (chosen: Chosen) => void,
): void {
  const done = useRef<string | null>(null);
  useEffect(() => {
    if (row === null || done.current === row) return;
    const layer = layers.find((l) => l.pieces.some((p) => p.row.row_id === row));
    const kind = samples.some((s) => s.row.row_id === row)
      ? 'sample'
      : photos.some((p) => p.row.row_id === row)
        ? 'photo'
        : null;
    if (layer === undefined && kind === null) return;
    done.current = row;
    if (layer !== undefined) choose({ kind: 'layer', id: layer.id });
    else if (kind !== null) choose({ kind, id: row });
  });
}
