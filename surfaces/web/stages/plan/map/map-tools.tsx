/** What stands below the map: a hole where the device is, and coasts of the campaign's own. */
import type { Problem } from '@stillstand/campaign/problems';
import { useEffect, useRef, useState } from 'react';
import { Button } from '../../../parts/index.ts';
import type { Store } from '../../../store/index.ts';
import { type Coast, readCoast } from './coast.ts';

/** Asks the device where it is. */
export function HoleHere({
  onPlace,
}: {
  onPlace: (place: { latitude_deg: string; longitude_deg: string; position_accuracy_m: string }) => void;
}) {
  const [state, setState] = useState<'idle' | 'asking' | string>('idle');
  if (!('geolocation' in navigator)) return null;
  const ask = (): void => {
    setState('asking');
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        setState('idle');
        onPlace({
          latitude_deg: coords.latitude.toFixed(6),
          longitude_deg: coords.longitude.toFixed(6),
          // With 95 % (W3C, Geolocation, GeolocationCoordinates.accuracy).
          position_accuracy_m: String(Math.ceil(coords.accuracy)),
        });
      },
      (refusal) => setState(`This device does not tell where it is (${refusal.message}).`),
      { enableHighAccuracy: true, timeout: 30_000 },
    );
  };
  return (
    <>
      <Button mark="plus" disabled={state === 'asking'} onClick={ask}>
        {state === 'asking' ? 'Asking the device…' : 'Plan a hole here'}
      </Button>
      {state === 'idle' || state === 'asking' ? null : (
        <span className="says-why" role="status">
          {state}
        </span>
      )}
    </>
  );
}

export function CoastButton({ onFile }: { onFile: (file: File) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button mark="open" onClick={() => input.current?.click()}>
        Add a coast (GeoJSON)
      </Button>
      <input
        ref={input}
        type="file"
        accept=".geojson,.json,application/geo+json"
        hidden
        aria-label="A coast as GeoJSON"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file !== undefined) onFile(file);
        }}
      />
    </>
  );
}

/** Coasts kept with the campaign, by every file that ends in .geojson. */
export function useCoasts(store: Store): {
  coasts: readonly Coast[];
  add: (file: File) => void;
  problem: Problem | null;
} {
  const [coasts, setCoasts] = useState<readonly Coast[]>([]);
  const [problem, setProblem] = useState<Problem | null>(null);
  useEffect(() => {
    let isCurrent = true;
    void (async () => {
      const found: Coast[] = [];
      for (const path of await store.filePaths()) {
        if (!/\.geojson$/i.test(path)) continue;
        const text = await (await store.file(path))?.text();
        const read = text === undefined ? null : readCoast(path, text);
        if (read !== null && read.coast !== null) found.push(read.coast);
      }
      if (isCurrent) setCoasts(found);
    })();
    return () => {
      isCurrent = false;
    };
  }, [store]);
  const add = (file: File): void => {
    void (async () => {
      const read = readCoast(file.name, await file.text());
      setProblem(read.problem);
      if (read.coast === null) return;
      await store.addFile(new Uint8Array(await file.arrayBuffer()), 'application/geo+json');
      setCoasts((before) => [...before, read.coast]);
    })();
  };
  return { coasts, add, problem };
}
