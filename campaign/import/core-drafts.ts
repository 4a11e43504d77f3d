/** Cores by their grid coordinates, and pushes by what came up. */

import { fromUtm } from '@stillstand/science/survey';
import { sum } from './decimal.ts';
import type { Draft } from './draft.ts';
import type { Mapping } from './mapping.ts';
import { wordOf } from './own-cells.ts';
import { inMetres, ourCell, readLength, writtenLength } from './read-cell.ts';
import { targetsOf } from './targets.ts';

/** Latitude and longitude of grid coordinates, to 1e-7 degrees (a centimetre); what was stated goes into the note. */
export function positioned(draft: Draft, mapping: Mapping): void {
  const { said } = draft.given;
  const read = (name: string): number | null => {
    const cell = said.get(name);
    if (cell === undefined) return null;
    draft.notes.push(`${cell.column.heading}: ${cell.text}`);
    const own = { ...cell, column: { ...cell.column, unit: cell.column.unit ?? 'm' } };
    const metres = ourCell(name, targetsOf('cores').get(name)!.column, own, mapping).cell;
    return metres === null ? null : Number(metres);
  };
  const [easting_m, northing_m] = [read('easting'), read('northing')];
  const zone = /^(\d{1,2})\s*([NS])$/i.exec(wordOf(draft.given, mapping, 'utm_zone').trim());
  if (easting_m === null || northing_m === null || zone === null) return;
  const hemisphere = zone[2]!.toUpperCase() === 'N' ? 'N' : 'S';
  const place = fromUtm({ easting_m, northing_m, zone: Number(zone[1]), hemisphere });
  if (place === null) return;
  draft.notes.push(`UTM zone ${zone[1]}${hemisphere}`);
  draft.cells['latitude_deg'] ??= place.latitude_deg.toFixed(7);
  draft.cells['longitude_deg'] ??= place.longitude_deg.toFixed(7);
}

export function pushed(draft: Draft, mapping: Mapping): void {
  if (draft.cells['to'] !== undefined) return;
  const from = draft.given.said.get('from');
  const read = (name: string) => {
    const said = draft.given.said.get(name);
    return said === undefined ? null : readLength(said, mapping).from;
  };
  const top = from === undefined ? null : readLength(from, mapping).from;
  const [length, recovered, shortening] = ['length', 'recovered', 'shortening'].map(read);
  const parts =
    length != null
      ? [top, length]
      : recovered != null && shortening != null
        ? [top, recovered, shortening]
        : null;
  const metres = parts?.map((part) => (part == null ? null : inMetres(part)));
  if (metres === undefined || metres.some((part) => part === null)) return;
  const total = metres.reduce((a, b) => sum(a!, b!))!;
  draft.cells['to'] = writtenLength({ value: total, unit: 'm' });
  draft.notes.push(length != null ? 'to = from + length' : 'to = from + recovered + shortening');
}
