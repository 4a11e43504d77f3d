/** Photographs of the core of one hole: where they lie along it, what is cut out of them, and their pictures. */

import { type Core, coreOfCells } from '@stillstand/campaign/chain';
import type { LengthOptions } from '@stillstand/campaign/tables';
import type { Strip } from '@stillstand/output/photographs';
import { useMemo } from 'react';
import type { DocRow } from '../../store/index.ts';
import { readLength } from './length.ts';
import { markingOf, stripOf } from './marking/marking.ts';
import { type PictureState, SMALL_PX, usePictures } from './pictures.ts';

export interface PlacedPhoto {
  row: DocRow;
  core: Core;
  top_m: number;
  bottom_m: number;
  /** What two marks cut out of the picture; null where they do not. */
  strip: Strip | null;
  picture: PictureState;
}

export function usePhotos(
  rows: readonly DocRow[],
  hole: string,
  cores: readonly Core[],
  options: LengthOptions,
): PlacedPhoto[] {
  const here = useMemo(() => placed(rows, hole, cores, options), [rows, hole, cores, options]);
  const pictures = usePictures(
    here.map((photo) => photo.file),
    SMALL_PX,
  );
  return here.map(({ file, ...photo }) => ({
    ...photo,
    picture: file === '' ? 'missing' : (pictures.get(file) ?? 'reading'),
  }));
}

const placed = (rows: readonly DocRow[], hole: string, cores: readonly Core[], options: LengthOptions) =>
  rows.flatMap((row) => {
    if (row.cells['hole']?.trim() !== hole) return [];
    const core = coreOfCells(cores, row.cells);
    if (core === null) return [];
    const top_m = readLength(row.cells['top'], options)?.m ?? 0;
    const bottom_m = readLength(row.cells['bottom'], options)?.m ?? core.length_m;
    const strip = stripOf(markingOf(row.cells), { top_m, bottom_m }, options);
    return [{ row, core, top_m, bottom_m, strip, file: row.cells['file']?.trim() ?? '' }];
  });
