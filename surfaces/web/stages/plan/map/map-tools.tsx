/** What is below the map: a hole where the device is, and coasts of the campaign's own. */
import { type Problem, problem as problemOf } from '@stillstand/campaign/problems';
import { joinedShapes, type MapShapes, NO_SHAPES, readShapes } from '@stillstand/output/shapes';
import { useEffect, useRef, useState } from 'react';
import { mapShapes } from '../../../map-shapes/index.ts';
import { Button } from '../../../parts/index.ts';
import type { Store } from '../../../store/index.ts';

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
      (refusal) => setState(`Position not available (${refusal.message}).`),
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

const FILES = '.geojson,.json,application/geo+json,.gpkg,application/geopackage+sqlite3';

export function CoastButton({ onFile }: { onFile: (file: File) => void }) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button mark="open" onClick={() => input.current?.click()}>
        Add a coast (GeoJSON, GeoPackage)
      </Button>
      <input
        ref={input}
        type="file"
        accept={FILES}
        hidden
        aria-label="A coast as GeoJSON or GeoPackage"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file !== undefined) onFile(file);
        }}
      />
    </>
  );
}

/** Coasts and grounds kept with the campaign, and the land of the Earth for the inset. */
export function useMapShapes(store: Store): {
  shapes: MapShapes;
  add: (file: File) => void;
  problem: Problem | null;
} {
  const [shapes, setShapes] = useState(NO_SHAPES);
  const [problem, setProblem] = useState<Problem | null>(null);
  useEffect(() => {
    let isCurrent = true;
    void mapShapes(store).then((found) => {
      if (isCurrent) setShapes(found);
    });
    return () => {
      isCurrent = false;
    };
  }, [store]);
  const add = (file: File): void => {
    void (async () => {
      const text = await geoJsonOf(file);
      const read =
        typeof text === 'string' ? readShapes(file.name, text) : { shapes: null, problem: text.problem };
      setProblem(read.problem);
      if (read.shapes === null || typeof text !== 'string') return;
      await store.addFile(new TextEncoder().encode(text), 'application/geo+json');
      setShapes((before) => joinedShapes([before, read.shapes]));
    })();
  };
  return { shapes, add, problem };
}

/** A GeoPackage is kept as GeoJSON, which every program reads; SQLite is loaded for it. */
async function geoJsonOf(file: File): Promise<string | { problem: Problem }> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const isSqlite = new TextDecoder().decode(bytes.subarray(0, 15)) === 'SQLite format 3';
  if (!isSqlite) return new TextDecoder().decode(bytes);
  const { readGeoPackage } = await import('@stillstand/output/geopackage');
  const read = await readGeoPackage(bytes);
  return read.ok
    ? read.geojson
    : {
        problem: problemOf({
          severity: 'error',
          code: 'not-geopackage',
          table: file.name,
          found: read.found,
          expected: 'a GeoPackage with lines or areas',
          fix: read.fix,
        }),
      };
}
