/** Photographs of the core of one hole: where they lie along it, and their pictures once the device has given them. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { useEffect, useState } from 'react';
import { type DocRow, useStore } from '../../store/index.ts';
import { type Core, coreOfCells } from './core.ts';
import { readLength } from './length.ts';

interface Picture {
  url: string;
  /** Wider than tall: the core lies in it from left to right. */
  isAcross: boolean;
}

export interface PlacedPhoto {
  row: DocRow;
  core: Core;
  top_m: number;
  bottom_m: number;
  /** Null until it is read, or where the device does not have the file. */
  picture: Picture | null;
}

export function usePhotos(
  rows: readonly DocRow[],
  hole: string,
  cores: readonly Core[],
  options: LengthOptions,
): PlacedPhoto[] {
  const here = rows.flatMap((row) => {
    if (row.cells['hole']?.trim() !== hole) return [];
    const core = coreOfCells(cores, row.cells);
    if (core === null) return [];
    const top_m = readLength(row.cells['top'], options)?.m ?? 0;
    const bottom_m = readLength(row.cells['bottom'], options)?.m ?? core.length_m;
    return [{ row, core, top_m, bottom_m, file: row.cells['file'] ?? '' }];
  });
  const pictures = usePictures(here.map((photo) => photo.file));
  return here.map(({ file, ...photo }) => ({ ...photo, picture: pictures.get(file) ?? null }));
}

/** Pictures by their path. Addresses made for them are given back when the screen is left. */
function usePictures(files: readonly string[]): ReadonlyMap<string, Picture> {
  const store = useStore();
  const [pictures, setPictures] = useState<ReadonlyMap<string, Picture>>(new Map());
  const wanted = [...new Set(files)].sort().join('\n');
  useEffect(() => {
    let isOver = false;
    const made: string[] = [];
    const read = async (file: string): Promise<void> => {
      const blob = await store.file(file);
      if (blob === null || isOver) return;
      const bitmap = await createImageBitmap(blob);
      const isAcross = bitmap.width > bitmap.height;
      bitmap.close();
      const url = URL.createObjectURL(blob);
      made.push(url);
      if (isOver) URL.revokeObjectURL(url);
      else setPictures((before) => new Map(before).set(file, { url, isAcross }));
    };
    // A file that is no picture stays a row without one; its path is shown in the panel.
    for (const file of wanted.split('\n').filter(Boolean)) void read(file).catch(() => undefined);
    return () => {
      isOver = true;
      for (const url of made) URL.revokeObjectURL(url);
    };
  }, [store, wanted]);
  return pictures;
}
