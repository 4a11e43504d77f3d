/**
 * Pictures as the device has them. They are drawn upright (the turn that a camera notes is applied, EXIF 2.3) and no larger
 * than is of use, so that a picture of 50 megapixels does not fill the memory of a tablet; their size is that of the file.
 */
import type { PictureSize } from '@stillstand/output/photographs';
import { useEffect, useRef, useState } from 'react';
import { useStore } from '../../store/index.ts';

export interface Picture extends PictureSize {
  url: string;
}

/** Missing: this device does not have the file. Unreadable: it has it, and cannot show it. */
export type PictureState = Picture | 'reading' | 'missing' | 'unreadable';

export const isPicture = (state: PictureState): state is Picture => typeof state === 'object';

/** Pixels kept of a picture in the drawing (8 MB in memory), and of the one that is marked (48 MB). */
export const SMALL_PX = 2e6;
export const LARGE_PX = 12e6;

/** Pictures by their path. Addresses made for them are given back when the screen is left. */
export function usePictures(files: readonly string[], most_px: number): ReadonlyMap<string, PictureState> {
  const store = useStore();
  const [pictures, setPictures] = useState<ReadonlyMap<string, PictureState>>(new Map());
  const made = useRef(new Map<string, Picture>());
  const wanted = [...new Set(files)].sort().join('\n');
  useEffect(() => {
    let isOver = false;
    const read = async (file: string): Promise<PictureState> => {
      const blob = await store.file(file);
      return blob === null ? 'missing' : await readPicture(blob, most_px);
    };
    const readAll = async (): Promise<void> => {
      // One after the other: each is decoded whole for a moment.
      for (const file of wanted.split('\n').filter((name) => name !== '' && !made.current.has(name))) {
        const state = await read(file).catch(() => 'unreadable' as const);
        if (isOver) {
          if (isPicture(state)) URL.revokeObjectURL(state.url);
          return;
        }
        if (isPicture(state)) made.current.set(file, state);
        setPictures((before) => new Map(before).set(file, state));
      }
    };
    void readAll();
    return () => {
      isOver = true;
    };
  }, [store, wanted, most_px]);
  useEffect(() => {
    const { current } = made;
    return () => {
      for (const { url } of current.values()) URL.revokeObjectURL(url);
      current.clear();
    };
  }, []);
  return pictures;
}

/** Throws where the browser cannot show the file. */
async function readPicture(blob: Blob, most_px: number): Promise<Picture> {
  const size = await pictureSize(blob);
  const by = Math.min(1, Math.sqrt(most_px / (size.width_px * size.height_px)));
  const bitmap = await createImageBitmap(blob, {
    resizeWidth: Math.max(1, Math.round(size.width_px * by)),
    resizeHeight: Math.max(1, Math.round(size.height_px * by)),
    resizeQuality: 'high',
  });
  const canvas = document.createElement('canvas');
  canvas.width = bitmap.width;
  canvas.height = bitmap.height;
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser gives no drawing surface');
  pen.drawImage(bitmap, 0, 0);
  bitmap.close();
  const drawn = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.9));
  canvas.width = 0;
  if (drawn === null) throw new Error('the picture is too large for this browser');
  return { ...size, url: URL.createObjectURL(drawn) };
}

/** From its head, without decoding it; upright. Throws where the browser knows no such picture. */
export async function pictureSize(blob: Blob): Promise<PictureSize> {
  const url = URL.createObjectURL(blob);
  try {
    const image = new Image();
    await new Promise((resolve, reject) => {
      image.onload = resolve;
      image.onerror = () => reject(new Error('not a picture this browser can show'));
      image.src = url;
    });
    return { width_px: image.naturalWidth, height_px: image.naturalHeight };
  } finally {
    URL.revokeObjectURL(url);
  }
}
