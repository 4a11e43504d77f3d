/** A copy to take along or send: with or without photos, how large, saved as a file or handed to the share sheet. */
import { capital } from '@stillstand/campaign/tables';
import { useEffect, useState } from 'react';
import { download, fileName } from '../../parts/index.ts';
import { type Copy, deviceWords, useStore } from '../../store/index.ts';

export type CopyState = 'idle' | 'packing' | 'saved' | 'shared' | 'ready to share';

/** Whether this browser hands zip files to the share sheet; several hand over pictures and texts only. */
export const canShareZip = (): boolean =>
  globalThis.navigator?.canShare?.({ files: [zipFile(new Blob(['x']), 'copy')] }) === true;

const zipFile = (zip: Blob, name: string): File =>
  new File([zip], `${name}.zip`, { type: 'application/zip' });

/** `onKept`: a copy of everything went elsewhere, under that name. */
export function useCopy(onKept: (name: string) => Promise<void>) {
  const store = useStore();
  const [photos, setPhotos] = useState<ReadonlyMap<string, number> | null>(null);
  /** Bytes of everything but the photos. */
  const [rest_bytes, setRest] = useState<number | null>(null);
  const [isWithPhotos, setWithPhotos] = useState(true);
  const [state, setState] = useState<CopyState>('idle');
  const [failure, setFailure] = useState<string | null>(null);
  const [ready, setReady] = useState<Copy | null>(null);
  useEffect(() => {
    let isOver = false;
    const look = async (): Promise<void> => {
      const sizes = await store.photoSizes();
      if (!isOver) setPhotos(sizes);
      const { zip } = await store.pack(new Set(sizes.keys()));
      if (!isOver) setRest(zip.size);
    };
    // What cannot be packed is said when it is asked for.
    look().catch(() => undefined);
    return () => {
      isOver = true;
    };
  }, [store]);

  const isWhole = isWithPhotos || photos === null || photos.size === 0;
  const name = `${fileName(store.name())}${isWhole ? '' : '-without-photos'}`;
  const pack = async (): Promise<Copy> => {
    const copy = await store.pack(isWhole ? undefined : new Set(photos?.keys()));
    // Without the photos it is not a copy of everything that is only here.
    const wasKept = async (): Promise<void> => {
      if (!isWhole) return;
      await copy.wasKept();
      await onKept(`${name}.zip`);
    };
    return { zip: copy.zip, wasKept };
  };
  const packed = (): Promise<Copy> => {
    setState('packing');
    setFailure(null);
    return pack();
  };
  const orFailure = async (act: () => Promise<void>): Promise<void> => {
    try {
      await act();
    } catch (error) {
      setFailure(`${capital(deviceWords(error))}. Everything entered is still on this device: try again.`);
      setState('idle');
    }
  };
  const save = (): Promise<void> =>
    orFailure(async () => {
      const copy = await packed();
      download(copy.zip, `${name}.zip`);
      await copy.wasKept();
      setState('saved');
    });
  const share = (): Promise<void> =>
    orFailure(async () => {
      const copy = ready ?? (await packed());
      try {
        await navigator.share({ files: [zipFile(copy.zip, name)] });
      } catch (error) {
        const { name: why } = error as Error;
        if (why === 'AbortError') return setState('idle');
        if (why !== 'NotAllowedError' || ready !== null) throw error;
        // Packing took longer than a press counts: it is pressed again, and nothing is packed again.
        setReady(copy);
        return setState('ready to share');
      }
      setReady(null);
      await copy.wasKept();
      setState('shared');
    });
  return {
    photos,
    rest_bytes,
    isWithPhotos,
    choosePhotos: (isWith: boolean) => {
      setWithPhotos(isWith);
      setReady(null);
      setState('idle');
    },
    state,
    failure,
    pack,
    save,
    share,
  };
}
