/** A hole as it is described: its cores, units, samples and photos, with what is moving drawn where it will lie. */

import { type Core, coresOf } from '@stillstand/campaign/chain';
import type { HoleResult } from '@stillstand/campaign/results';
import type { LengthOptions, LengthUnit, TableName } from '@stillstand/campaign/tables';
import { useMemo } from 'react';
import { useStore } from '../../store/index.ts';
import type { Edit } from './edits.ts';
import { basesOf, type Description, description } from './layers.ts';
import { withEdits } from './moving.ts';
import { type PlacedPhoto, usePhotos } from './photos.ts';
import { type PlacedSample, placedSamples } from './samples.ts';

export interface Described {
  hole: HoleResult;
  cores: readonly Core[];
  description: Description;
  samples: readonly PlacedSample[];
  photos: readonly PlacedPhoto[];
  options: Readonly<Record<'units' | 'samples' | 'photos', LengthOptions>>;
}

const ENTERED = ['entered'] as const;
const IN_SITU = ['in_situ'] as const;

/** `moving`: edits that are not written yet. */
export function useDescribed(hole: HoleResult, moving: readonly Edit[]): Described {
  const store = useStore();
  const options = {
    units: useLengths('units'),
    samples: useLengths('samples'),
    photos: useLengths('photos'),
  };
  const unitRows = withEdits(store.rows('units'), moving);
  const sampleRows = withEdits(store.rows('samples'), moving);
  const photoRows = store.rows('photos');
  const determinations = store.rows('determinations');
  // What is dragged stays on its basis: cores, and with them the strips of photographs, are made anew for another alone.
  const bases = [...basesOf(unitRows, hole.hole), ...basesOf(sampleRows, hole.hole)];
  const isEntered = bases.includes('entered');
  const isInSitu = bases.includes('in_situ');
  const cores = useMemo(
    () => coresOf(hole, [...(isEntered ? ENTERED : []), ...(isInSitu ? IN_SITU : [])]),
    [hole, isEntered, isInSitu],
  );
  const d = useMemo(
    () => description(unitRows, hole.hole, cores, options.units),
    [unitRows, hole, cores, options.units],
  );
  const dated = useMemo(
    () => new Set(determinations.map((r) => r.cells['sample']?.trim() ?? '')),
    [determinations],
  );
  const samples = placedSamples(sampleRows, hole.hole, cores, options.samples, dated);
  // A picture of the ground is no core that wants describing.
  const pictured = useMemo(() => {
    const known = new Set(cores.map(({ name }) => name));
    const others = coresOf(hole, basesOf(photoRows, hole.hole));
    return [...cores, ...others.filter(({ name }) => !known.has(name))];
  }, [hole, cores, photoRows]);
  const photos = usePhotos(photoRows, hole.hole, pictured, options.photos);
  return { hole, cores, description: d, samples, photos, options };
}

/** How a table's lengths are typed: the decimal mark it writes, and the unit of bare numbers. */
function useLengths(table: TableName): LengthOptions {
  const store = useStore();
  const unit = (store.setting('length_unit') ?? '') as LengthUnit | '';
  const decimal_comma = store.document().tables.get(table)?.dialect.decimal_comma ?? false;
  return useMemo(() => ({ decimal_comma, ...(unit === '' ? {} : { unit }) }), [unit, decimal_comma]);
}
